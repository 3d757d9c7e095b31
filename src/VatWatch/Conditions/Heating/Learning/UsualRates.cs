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

    /// <summary>So many minutes at a warmth make a rate.</summary>
    private const int LeastMinutes = 3;

    /// <summary>No heater boils a vat within minutes.</summary>
    private const double GreatestKPerHour = 1000;

    private readonly NightFigures _warming = new(Warmths, LeastMinutes, isLeast: false);
    private readonly NightFigures _cooling = new(Warmths, LeastMinutes, isLeast: false);
    private readonly NightFigures _first = new(Parts, LeastMinutes, isLeast: true);
    private readonly List<(int Warmth, double KPerHour)> _sinceCut = [];

    /// <summary>Takes in a rate of tonight, once a minute.</summary>
    public void Add(bool heaterOn, double liquorC, double kPerHour)
    {
        if (heaterOn)
        {
            _warming.Count(Index(liquorC), kPerHour);
        }
        else
        {
            _sinceCut.Add((Index(liquorC), kPerHour));
        }
    }

    /// <summary>Takes in a rate of the first hour of heating, once a minute.</summary>
    /// <param name="sinceOn">How long the heater has been on.</param>
    /// <param name="gainKPerHour">What the heater brings: the rate over that without it, K/h.</param>
    public void AddFirst(TimeSpan sinceOn, double gainKPerHour) => _first.Count(PartOf(sinceOn), gainKPerHour);

    /// <summary>The least that the heater used to bring so long after it came on, K/h: layers form a little differently each night. Null while it is not known.</summary>
    public double? First(TimeSpan sinceOn) => _first.Usual(PartOf(sinceOn));

    /// <summary>Nights of which that is the least.</summary>
    public int FirstNights(TimeSpan sinceOn) => _first.Nights(PartOf(sinceOn));

    /// <summary>The heater came on. Only what cooled from a thermostat's cut until then is usual; a vat that was switched off is worked at, uncovered.</summary>
    public void CameOn(bool afterCut)
    {
        foreach (var (warmth, kPerHour) in afterCut ? _sinceCut : [])
        {
            _cooling.Count(warmth, kPerHour);
        }

        _sinceCut.Clear();
    }

    /// <summary>Another warm-up begins: what was tonight is an earlier night.</summary>
    public void BeginWarmUp()
    {
        _warming.EndNight();
        _cooling.EndNight();
        _first.EndNight();
        _sinceCut.Clear();
    }

    /// <summary>
    /// The usual rate at a warmth, K/h: of earlier nights, or of a thermostat's earlier pauses tonight where none are known. Null while neither is.
    /// </summary>
    public double? At(bool heaterOn, double liquorC) => heaterOn
        ? _warming.Usual(Index(liquorC))
        : _cooling.Usual(Index(liquorC)) ?? (_cooling.WithTonight(Index(liquorC)) is { Nights: > 0 } tonight ? tonight.Figure : null);

    /// <summary>What to keep for the next run: this night counts as an earlier one then.</summary>
    public (IReadOnlyList<KeptRate> Warming, IReadOnlyList<KeptRate> Cooling, IReadOnlyList<KeptRate> FirstHour) Kept() => (Kept(_warming), Kept(_cooling), Kept(_first));

    /// <summary>Takes up what an earlier run kept.</summary>
    public void Restore(KeptNights kept)
    {
        Restore(_warming, kept.Warming);
        Restore(_cooling, kept.Cooling);
        Restore(_first, kept.FirstHour);
    }

    private static List<KeptRate> Kept(NightFigures rates) =>
        [.. Enumerable.Range(0, rates.Places).Select(i => (Place: i, Rate: rates.WithTonight(i))).Where(one => one.Rate.Nights > 0).Select(one => new KeptRate(one.Place, Math.Round(one.Rate.Figure, 3), one.Rate.Nights))];

    private static void Restore(NightFigures rates, IReadOnlyList<KeptRate> kept)
    {
        foreach (var (place, kPerHour, nights) in kept)
        {
            if (place >= 0 && place < rates.Places && Math.Abs(kPerHour) < GreatestKPerHour && nights > 0)
            {
                rates.Restore(place, kPerHour, nights);
            }
        }
    }

    private static int PartOf(TimeSpan sinceOn) => Math.Clamp((int)(sinceOn / Part), 0, Parts - 1);

    private static int Index(double liquorC) => Math.Clamp((int)(liquorC / LikeK), 0, Warmths - 1);
}
