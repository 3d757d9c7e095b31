using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// Finds out up to where a thermostat lets the liquor go, from the cut-offs it makes. A thermostat is two cut-offs near one warmth in one night with heating
/// between that nobody switched on, or a controller that holds the liquor; what a person switches off is none. Not thread safe.
/// </summary>
/// <param name="lowC">Coldest liquor that is wanted, °C: what cuts off far below it is not this vat's thermostat.</param>
internal sealed class ThermostatCuts(double lowC)
{
    /// <summary>How far the peaks of one thermostat lie apart, K: its own spread, its bulb's lag, layers.</summary>
    private const double SpreadK = 1.2;

    /// <summary>A cut-off this far below the band is none, K: a pause on the way up; and what comes on again further below was switched on by a person.</summary>
    private const double BelowK = 2;

    /// <summary>
    /// Above the highest peak by this, and by half of what the peaks lie apart: the cut-off that should have come did not. Where the limit lies near, by a share of the way to it, so that time is left.
    /// Engineering choices.
    /// </summary>
    private const double AboveK = 0.6;
    private const double ScatterShare = 0.5;
    private const double ShareToLimit = 0.4;
    private const double LeastAboveK = 0.2;
    private const double LeastSteadyAboveK = 0.1;
    private static readonly TimeSpan TimeToAct = TimeSpan.FromMinutes(8);

    /// <summary>
    /// A liquor that rose briskly to where it then moves by no more than this for so long, while it would have cooled by so much without its heater, is held; it may have overshot by this
    /// before, K. What levels off by itself rises slowly over the last kelvins; a coarse thermometer needs longer to show that it stands.
    /// </summary>
    private const double HoldK = 0.5;
    private const double LeastLostK = 0.5;
    private const double CoolsShare = 0.1;
    private const double OvershootK = 2;
    private const double BriskK = 3;
    private static readonly TimeSpan HoldsFor = TimeSpan.FromHours(2);
    private static readonly TimeSpan BriskWithin = TimeSpan.FromMinutes(90);

    /// <summary>Cut-offs further apart than a night do not belong together.</summary>
    private static readonly TimeSpan Night = TimeSpan.FromHours(14);

    private (TimeSpan At, double PeakC, double HighestC)? _tonight;
    private TimeSpan? _confirmedAt;
    private (TimeSpan Since, double FirstC)? _hold;
    private bool _holds;
    private double? _briskToC;
    private readonly Queue<LiquorMean> _recent = new();
    private bool _heatedAgain;
    private double _lowestPeakC = double.PositiveInfinity;

    /// <summary>The highest peak that a known thermostat makes, °C; null when none is known.</summary>
    public double? OffC { get; private set; }

    /// <summary>Where it last let the heater come on again, °C; null when that was not seen.</summary>
    public double? OnC { get; private set; }

    /// <summary>
    /// The warmth by which a cut-off is to be expected, °C: of a known thermostat, or tonight's highest cut-off when the heater has come on again by itself since: a lower one may
    /// have been the mains.
    /// </summary>
    public double? ExpectedC => OffC ?? (_heatedAgain ? _tonight?.HighestC : null);

    /// <summary>Above this the heater does not follow its thermostat, °C; null without one.</summary>
    /// <param name="stepK">Step of the thermometer, K.</param>
    /// <param name="limitC">The vat's limit, °C.</param>
    /// <param name="steadyKPerHour">
    /// How fast the liquor rises, where it rises as fast as before: a peak is where a rise ends, minutes after its cut, and one that goes on there has had none. It is not waited for
    /// until too little time is left. Null where the rise bends, or none is seen.
    /// </param>
    public double? StuckAboveC(double stepK, double limitC, double? steadyKPerHour)
    {
        if (ExpectedC is not { } offC)
        {
            return null;
        }

        // One cut says where the next may come only within the spread: the liquor was layered when it was heated from cold.
        var above = Math.Max(Math.Min((OffC is null ? SpreadK : AboveK + ScatterShare * Math.Max(0, offC - _lowestPeakC)) + stepK, ShareToLimit * (limitC - offC)), LeastAboveK);
        return steadyKPerHour is { } rate ? Math.Clamp(limitC - rate * TimeToAct.TotalHours, offC + Math.Min(LeastSteadyAboveK, above), offC + above) : offC + above;
    }

    /// <summary>Whether a heater that is on may give less than all it has, because a controller that holds the liquor is about to act.</summary>
    public bool MayAct(double liquorC) => _holds && IsNear(liquorC, AboveK);

    /// <summary>Takes up what an earlier run saw.</summary>
    public void Restore(double? offC) => OffC = offC;

    /// <summary>A person switched the heater: what comes next is not the thermostat's doing.</summary>
    public void Switched()
    {
        _tonight = null;
        _heatedAgain = false;
    }

    /// <summary>The heater came on by itself.</summary>
    /// <param name="troughC">How far the liquor had cooled, °C.</param>
    /// <param name="leastFallK">A fall that the thermometer surely shows, K: a heater that only seemed to pause leaves none.</param>
    /// <returns>Whether it had cut off before, tonight: it is a thermostat's doing.</returns>
    public bool WentOn(TimeSpan at, double troughC, double leastFallK)
    {
        _tonight = _tonight is { } cut && at - cut.At < Night && troughC >= lowC - BelowK && cut.PeakC - troughC >= leastFallK ? cut : null;
        _heatedAgain = _tonight is not null;
        OnC = _heatedAgain ? Math.Min(OnC ?? troughC, troughC) : OnC;
        return _heatedAgain;
    }

    /// <summary>The heater went off by itself, with a peak of this warmth.</summary>
    public void WentOff(TimeSpan at, double peakC)
    {
        if (peakC < lowC - BelowK)
        {
            return;
        }

        var earlier = _tonight is { } cut && at - cut.At < Night ? _tonight : null;
        if (OffC is { } known && Math.Abs(peakC - known) <= SpreadK)
        {
            OffC = Math.Max(peakC, known);
            _confirmedAt = at;
            _lowestPeakC = Math.Max(Math.Min(peakC, _lowestPeakC), OffC.Value - SpreadK);
        }
        else if (_heatedAgain && earlier is { PeakC: var earlierC } && Math.Abs(peakC - earlierC) <= SpreadK && !(peakC < OffC && IsConfirmed(at)))
        {
            // Layers let it cut off much cooler at times: it was turned down only when a night has passed without its own peak.
            OffC = Math.Max(peakC, earlierC);
            (_confirmedAt, _holds) = (at, false);
            _lowestPeakC = Math.Min(peakC, earlierC);
        }

        _tonight = (at, peakC, Math.Max(peakC, earlier?.HighestC ?? peakC));
        _heatedAgain = false;
    }

    /// <summary>The liquor as it goes: a controller that sets the power by degrees makes no cut-offs.</summary>
    /// <param name="mean">The newest mean.</param>
    /// <param name="grainK">Movement of the thermometer that may be none, K.</param>
    /// <param name="lossKPerHour">How fast it would cool without its heater, K/h; 0 where it is off, or too hot to be held on purpose.</param>
    public void Follow(LiquorMean mean, double grainK, double lossKPerHour)
    {
        _recent.Enqueue(mean);
        while (_recent.Peek().At < mean.At - BriskWithin)
        {
            _recent.Dequeue();
        }

        var coolestC = mean.LiquorC;
        foreach (var one in _recent)
        {
            coolestC = Math.Min(coolestC, one.LiquorC);
        }

        if (mean.LiquorC < lowC - BelowK)
        {
            _briskToC = null;
        }
        else if (mean.LiquorC - coolestC >= BriskK + grainK)
        {
            _briskToC = Math.Max(_briskToC ?? mean.LiquorC, mean.LiquorC);
        }

        if (_hold is not { } hold || Math.Abs(mean.LiquorC - hold.FirstC) > HoldK + grainK / 2)
        {
            _hold = (mean.At, mean.LiquorC);
            return;
        }

        var lasts = mean.At - hold.Since;
        var lostK = lossKPerHour * lasts.TotalHours;
        if (lasts < HoldsFor * (1 + grainK / HoldK) || lostK < LeastLostK + grainK || hold.FirstC - mean.LiquorC > CoolsShare * lostK || !(hold.FirstC <= _briskToC + HoldK))
        {
            return;
        }

        if (!IsNear(mean.LiquorC, SpreadK))
        {
            if (IsConfirmed(mean.At))
            {
                return;
            }

            OffC = Math.Clamp(_briskToC!.Value, hold.FirstC, hold.FirstC + OvershootK);
            (_lowestPeakC, _holds) = (hold.FirstC, true);
        }

        _confirmedAt = mean.At;
    }

    /// <summary>Whether it is about where a known thermostat acts, up to so far above its highest peak.</summary>
    private bool IsNear(double liquorC, double aboveK) => OffC is { } offC && liquorC > Math.Min(offC, _lowestPeakC) - SpreadK && liquorC < offC + aboveK;

    private bool IsConfirmed(TimeSpan at) => OffC is not null && at - _confirmedAt < Night;
}
