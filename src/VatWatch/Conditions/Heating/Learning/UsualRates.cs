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

    /// <summary>So many minutes at a warmth make a rate.</summary>
    private const int LeastMinutes = 3;

    /// <summary>A night counts for so much beside the earlier ones, whose number is forgotten past this.</summary>
    private const int MostNights = 4;

    private readonly (double KPerHour, int Nights)[] _warming = new (double, int)[Warmths];
    private readonly (double KPerHour, int Nights)[] _cooling = new (double, int)[Warmths];
    private readonly (double Sum, int Count)[] _warmingTonight = new (double, int)[Warmths];
    private readonly (double Sum, int Count)[] _coolingTonight = new (double, int)[Warmths];
    private readonly List<(int Warmth, double KPerHour)> _sinceCut = [];

    /// <summary>Takes in a rate of tonight, once a minute.</summary>
    public void Add(bool heaterOn, double liquorC, double kPerHour)
    {
        if (!heaterOn)
        {
            _sinceCut.Add((Index(liquorC), kPerHour));
            return;
        }

        ref var at = ref _warmingTonight[Index(liquorC)];
        at = (at.Sum + kPerHour, at.Count + 1);
    }

    /// <summary>The heater came on. Only what cooled from a thermostat's cut until then is usual; a vat that was switched off is worked at, uncovered.</summary>
    public void CameOn(bool afterCut)
    {
        foreach (var (warmth, kPerHour) in afterCut ? _sinceCut : [])
        {
            ref var at = ref _coolingTonight[warmth];
            at = (at.Sum + kPerHour, at.Count + 1);
        }

        _sinceCut.Clear();
    }

    /// <summary>Another warm-up begins: what was tonight is an earlier night.</summary>
    public void BeginWarmUp()
    {
        Join(_warming, _warmingTonight);
        Join(_cooling, _coolingTonight);
        _sinceCut.Clear();
    }

    /// <summary>The usual rate at a warmth, K/h; null while it is not known.</summary>
    public double? At(bool heaterOn, double liquorC) => (heaterOn ? _warming : _cooling)[Index(liquorC)] is { Nights: > 0 } usual ? usual.KPerHour : null;

    private static int Index(double liquorC) => Math.Clamp((int)(liquorC / LikeK), 0, Warmths - 1);

    private static void Join((double KPerHour, int Nights)[] usual, (double Sum, int Count)[] tonight)
    {
        for (var i = 0; i < Warmths; i++)
        {
            if (tonight[i].Count >= LeastMinutes)
            {
                var nights = Math.Min(usual[i].Nights + 1, MostNights);
                usual[i] = (usual[i].KPerHour + (tonight[i].Sum / tonight[i].Count - usual[i].KPerHour) / nights, nights);
            }

            tonight[i] = default;
        }
    }
}
