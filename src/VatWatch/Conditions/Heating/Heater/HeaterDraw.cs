namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// Holds the power that a meter shows, as a share of the rating, against what the heater drew in earlier nights, or against its plate before there were any. An element that is gone
/// shows in it at once, whatever the liquor does. Not thread safe; one per vat.
/// </summary>
internal sealed class HeaterDraw(VatDefinition vat)
{
    /// <summary>Mains that are allowed to be 10 % low or high (EN 50160, from memory) move the power by 20 %: two nights may differ by this share, but one of three elements is more.</summary>
    private const double WeakShare = 0.75;

    /// <summary>A plate for 240 V on 208 V gives 75 % of its power; one of two elements less.</summary>
    private const double WeakOfPlateShare = 0.65;

    /// <summary>A controller that sets the power by degrees gives all of it so far below the band, K.</summary>
    private const double FullPowerBelowK = 3;

    /// <summary>Power that lasts, and no pulse of a controller.</summary>
    private static readonly TimeSpan Lasts = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan Memory = TimeSpan.FromMinutes(2);

    private TimeSpan? _since;
    private TimeSpan _last;
    private double _share;
    private double? _leastTonight;
    private TimeSpan? _weakSince;

    /// <summary>The least that it drew in earlier nights while it was on, as a share of the rating; null before there was one.</summary>
    public double? Usual { get; private set; }

    /// <summary>What is drawn now, as a share of the rating; null while nothing is.</summary>
    public double? Share => _since is null ? null : _share;

    /// <summary>Takes up what an earlier run saw.</summary>
    public void Restore(double? usual) => Usual = usual is > 0 and < 10 ? usual : null;

    /// <summary>What to keep for the next run: this night counts as an earlier one then.</summary>
    public double? Kept => _leastTonight is { } least ? ((Usual ?? least) + least) / 2 : Usual;

    /// <summary>Another warm-up begins: what was tonight is an earlier night. One that differs is believed by halves.</summary>
    public void BeginWarmUp() => (Usual, _leastTonight) = (Kept, null);

    /// <summary>Takes in what the meter shows, as a share of the rating; null when it says nothing that can be used.</summary>
    public void Add(TimeSpan at, double? share)
    {
        if (share is not { } drawn || !QuantityText.IsHeating(drawn))
        {
            _since = null;
            return;
        }

        _share = _since is null ? drawn : drawn + (_share - drawn) * Math.Exp(-(at - _last) / Memory);
        _since ??= at;
        _last = at;
        if (at - _since >= Lasts)
        {
            _leastTonight = Math.Min(_leastTonight ?? _share, _share);
        }
    }

    /// <summary>That it draws too little; null while it does not.</summary>
    /// <param name="liquorC">The liquor, °C.</param>
    public Diagnosis? Evaluate(Stamp now, double liquorC)
    {
        // A thermostat's pause mends no element, and near the band a controller may draw little on purpose unless it never did: what was weak is so until it draws more.
        if (_since is { } since && now.Monotonic - since >= Lasts)
        {
            var mayBePurpose = !(Usual >= WeakOfPlateShare) && _weakSince is null && liquorC >= vat.Temperature.LowC - FullPowerBelowK;
            _weakSince = !mayBePurpose && _share < (WeakShare * Usual ?? WeakOfPlateShare) ? _weakSince ?? since : null;
        }

        return _weakSince is not { } weak ? null : Diagnosis.Made(DiagnosisKind.WeakHeater, now, weak,
            new($"The heater draws {Power(_share)}, where {(Usual is { } then ? $"it used to draw {Power(then)}" : $"its plate says {Power(1)}")}: part of it is dead, or its supply is low. Look at cord, supply and elements, with the heater unplugged."));
    }

    private string Power(double share) => vat.HeaterWatts is { } plate ? $"{share * plate:0} W" : $"{100 * share:0} %";
}
