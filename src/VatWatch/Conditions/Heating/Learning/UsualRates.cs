namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// How fast this vat's liquor changed at each warmth in earlier nights, with its heater and between two of a thermostat's cuts. Layers, walls and the place where
/// the probe hangs are the same each night, so that like is held against like; a balance of one mass leaves them out. Not thread safe.
/// </summary>
internal sealed class UsualRates
{
    /// <summary>Warmths this near are like one another, K.</summary>
    private const double LikeK = 1;

    private const int Warmths = 101;

    /// <summary>Until layers and walls follow a heater that came on, like is what comes so long after it: parts of an hour and more.</summary>
    private static readonly TimeSpan Part = TimeSpan.FromMinutes(10);

    private const int Parts = 8;

    /// <summary>No heater of a vat boils it within minutes.</summary>
    private const double GreatestKPerHour = 1000;

    /// <summary>So many minutes at a warmth make a rate.</summary>
    private const int LeastMinutes = 3;

    /// <summary>A night counts for so much beside the earlier ones, whose number is forgotten past this.</summary>
    private const int MostNights = 4;

    private readonly (double KPerHour, int Nights)[] _warming = new (double, int)[Warmths];
    private readonly (double KPerHour, int Nights)[] _cooling = new (double, int)[Warmths];
    private readonly (double Sum, int Count)[] _warmingTonight = new (double, int)[Warmths];
    private readonly (double Sum, int Count)[] _coolingTonight = new (double, int)[Warmths];
    private readonly (double KPerHour, int Nights)[] _first = new (double, int)[Parts];
    private readonly (double Sum, int Count)[] _firstTonight = new (double, int)[Parts];
    private readonly List<(int Warmth, double KPerHour)> _sinceCut = [];

    /// <summary>Takes in a rate of tonight, once a minute.</summary>
    public void Add(bool heaterOn, double liquorC, double kPerHour)
    {
        if (!heaterOn)
        {
            _sinceCut.Add((Index(liquorC), kPerHour));
            return;
        }

        Count(ref _warmingTonight[Index(liquorC)], kPerHour);
    }

    /// <summary>Takes in a rate of the first hour of heating, once a minute.</summary>
    /// <param name="sinceOn">How long the heater has been on.</param>
    /// <param name="gainKPerHour">What the heater brings: the rate over that without it, K/h.</param>
    public void AddFirst(TimeSpan sinceOn, double gainKPerHour) => Count(ref _firstTonight[PartOf(sinceOn)], gainKPerHour);

    /// <summary>The least that the heater used to bring so long after it came on, K/h: layers form a little differently each night. Null while it is not known.</summary>
    public double? First(TimeSpan sinceOn) => Known(_first[PartOf(sinceOn)]);

    /// <summary>The heater came on. Only what cooled from a thermostat's cut until then is usual; a vat that was switched off is worked at, uncovered.</summary>
    public void CameOn(bool afterCut)
    {
        foreach (var (warmth, kPerHour) in afterCut ? _sinceCut : [])
        {
            Count(ref _coolingTonight[warmth], kPerHour);
        }

        _sinceCut.Clear();
    }

    /// <summary>Another warm-up begins: what was tonight is an earlier night.</summary>
    public void BeginWarmUp()
    {
        Join(_warming, _warmingTonight);
        Join(_cooling, _coolingTonight);
        Join(_first, _firstTonight, isLeast: true);
        _sinceCut.Clear();
    }

    /// <summary>The usual rate at a warmth, K/h; null while it is not known.</summary>
    public double? At(bool heaterOn, double liquorC) => Known((heaterOn ? _warming : _cooling)[Index(liquorC)]);

    /// <summary>What to keep for the next run: this night counts as an earlier one then.</summary>
    public (IReadOnlyList<KeptRate> Warming, IReadOnlyList<KeptRate> Cooling, IReadOnlyList<KeptRate> FirstHour) Kept() =>
        (Kept(_warming, _warmingTonight), Kept(_cooling, _coolingTonight), Kept(_first, _firstTonight, isLeast: true));

    /// <summary>Takes up what an earlier run kept.</summary>
    public void Restore(KeptNights kept)
    {
        Restore(_warming, kept.Warming);
        Restore(_cooling, kept.Cooling);
        Restore(_first, kept.FirstHour);
    }

    private static List<KeptRate> Kept((double KPerHour, int Nights)[] usual, (double Sum, int Count)[] tonight, bool isLeast = false)
    {
        (double KPerHour, int Nights)[] joined = [.. usual];
        Join(joined, [.. tonight], isLeast);
        return [.. joined.Index().Where(at => at.Item.Nights > 0).Select(at => new KeptRate(at.Index, Math.Round(at.Item.KPerHour, 3), at.Item.Nights))];
    }

    private static void Restore((double KPerHour, int Nights)[] usual, IReadOnlyList<KeptRate> kept)
    {
        foreach (var (place, kPerHour, nights) in kept)
        {
            if (place >= 0 && place < usual.Length && Math.Abs(kPerHour) < GreatestKPerHour && nights > 0)
            {
                usual[place] = (kPerHour, Math.Min(nights, MostNights));
            }
        }
    }

    private static double? Known((double KPerHour, int Nights) usual) => usual.Nights > 0 ? usual.KPerHour : null;

    private static int PartOf(TimeSpan sinceOn) => Math.Clamp((int)(sinceOn / Part), 0, Parts - 1);

    private static void Count(ref (double Sum, int Count) at, double kPerHour) => at = (at.Sum + kPerHour, at.Count + 1);

    private static int Index(double liquorC) => Math.Clamp((int)(liquorC / LikeK), 0, Warmths - 1);

    private static void Join((double KPerHour, int Nights)[] usual, (double Sum, int Count)[] tonight, bool isLeast = false)
    {
        for (var i = 0; i < usual.Length; i++)
        {
            if (tonight[i].Count >= LeastMinutes)
            {
                var nights = Math.Min(usual[i].Nights + 1, MostNights);
                var mean = tonight[i].Sum / tonight[i].Count;
                usual[i] = (isLeast && nights > 1 ? Math.Min(usual[i].KPerHour, mean) : usual[i].KPerHour + (mean - usual[i].KPerHour) / nights, nights);
            }

            tonight[i] = default;
        }
    }
}
