using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// Holds what the liquor gets from its heater against what it used to get: nothing, too little, or less by as much as an open lid costs. Signatures as in the
/// heat-balance reference, "diagnostics"; thresholds are engineering choices. Not thread safe.
/// </summary>
internal sealed class HeaterOutput(VatDefinition vat, HeatTracker tracker)
{
    private const double NotHeatingShare = 0.3;

    /// <summary>Above its full level a vat has this much over its element; below it the element may be dry.</summary>
    private const double LowLevelPercent = 70;
    private static readonly TimeSpan UncoveredAfter = TimeSpan.FromMinutes(8);

    /// <summary>The layers about the probe follow once a heater has brought this much, K; sooner or later nothing is said of it.</summary>
    private const double ShowsAfterK = 1.5;
    private static readonly TimeSpan NotHeatingAfter = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan NotHeatingAtLast = TimeSpan.FromMinutes(30);

    /// <summary>Missing share of the usual power that is a weak heater; while layers and walls still follow, more of it.</summary>
    private const double WeakShare = 0.15;
    private const double WeakAtFirstShare = 0.3;
    private static readonly TimeSpan WeakAfter = TimeSpan.FromMinutes(30);

    /// <summary>Most of the line that the power is read from: a small step of the liquor does not last so long.</summary>
    private static readonly TimeSpan Holds = TimeSpan.FromMinutes(15);

    /// <summary>Near the room a lid cannot explain a missing power; elsewhere it costs what is estimated, within these shares.</summary>
    private const double LidShowsAboveRoomK = 12;
    private const double LeastLidShare = 0.4;
    private const double LeastLidShareOff = 0.6;
    private const double GreatestLidShare = 1.8;
    private const double LidDeviations = 2;

    /// <summary>Layers and walls follow a heater that came on or went off; earlier a slope says nothing of a lid.</summary>
    private static readonly TimeSpan LidAfter = TimeSpan.FromMinutes(40);
    private static readonly TimeSpan LidAfterCutOff = TimeSpan.FromMinutes(15);

    /// <summary>Without the heater only what cools between two of a thermostat's cuts is like what was learned: losses fall by more than a straight line as it cools on.</summary>
    private const double HoldK = 1;

    /// <summary>A slope this sure of being a rise comes from a heater that is on.</summary>
    private const double SureDeviations = 2;

    private TimeSpan? _weakSince;
    private TimeSpan? _openSince;
    private double _missingW;
    private TimeSpan? _heldAt;
    private Diagnosis? _short;

    /// <summary>What seems wrong with it now; null while nothing does.</summary>
    public Diagnosis? Evaluate(Stamp now, HeatSnapshot look, double? levelPercent)
    {
        // What is held against the usual only changes with the means.
        if (tracker.Newest?.At != _heldAt)
        {
            (_heldAt, _short) = (tracker.Newest?.At, FallsShort(now, look));
        }

        return NotHeating(now, look, levelPercent) ?? _short;
    }

    private Diagnosis? NotHeating(Stamp now, HeatSnapshot look, double? levelPercent)
    {
        var lasts = now.Monotonic - tracker.Heater.Since;
        if (look.HeaterOn != true || !tracker.Heater.IsTold || look.Line is not { } line || lasts < UncoveredAfter)
        {
            return null;
        }

        var expected = look.Estimate.HeatingKPerHour - 1.645 * Math.Sqrt(look.Estimate.HeatingVariance);
        var gives = line.KPerHour - look.Estimate.Rate(line.NewestC, heaterOn: false).KPerHour;
        if (expected <= 0 || gives + 2 * line.Sigma > NotHeatingShare * expected)
        {
            return null;
        }

        if (levelPercent < LowLevelPercent)
        {
            return Diagnosis.Made(DiagnosisKind.ElementUncovered, now, tracker.Heater.Since,
                new($"The heater draws power, the liquor does not warm and stands at {levelPercent.Value:0} %: the element may be dry. Unplug it at the wall now; a dry element glows within a minute."));
        }

        var shows = TimeSpan.FromHours(Math.Clamp(ShowsAfterK / expected, NotHeatingAfter.TotalHours, NotHeatingAtLast.TotalHours));
        return lasts < shows ? null : Diagnosis.Made(DiagnosisKind.HeaterNotHeating, now, tracker.Heater.Since,
            new($"The heater has been on for {DisplayUnits.Duration(lasts)}, but the liquor changes by only {line.KPerHour:K/h}. Check plug, protective switch and cut-out; do not reach in with the power on."));
    }

    private Diagnosis? FallsShort(Stamp now, HeatSnapshot look)
    {
        if (look.HeaterOn is not { } on || look.Line is not { } line || tracker.Balance.Usual is not { } usual || (on && MayBeCycling(line)))
        {
            _weakSince = null;
            return Open(now);
        }

        var roomC = look.Estimate.RoomC;
        var (missing, sigma) = usual.Missing(line, roomC, on);
        var lid = tracker.Prior.KPerHour(tracker.Prior.OpenLidW(line.NewestC, roomC));
        var lasts = now.Monotonic - tracker.RegimeSince;
        var mayBeLid = line.NewestC - roomC > LidShowsAboveRoomK && missing < GreatestLidShare * lid;
        var isShort = on && missing - sigma > (lasts < HeatTracker.Settled ? WeakAtFirstShare : WeakShare) * usual.HeatingKPerHour;
        _weakSince = isShort && !mayBeLid ? _weakSince ?? now.Monotonic : null;
        if (on ? lasts >= LidAfter : lasts >= LidAfterCutOff && line.NewestC > tracker.Thermostat.OnC - HoldK)
        {
            var isOpen = usual.IsOfEarlier && mayBeLid && tracker.Balance.OpenSince is null && (isShort || missing > Math.Max((on ? LeastLidShare : LeastLidShareOff) * lid, LidDeviations * sigma));
            _openSince = isOpen ? _openSince ?? now.Monotonic : null;
            _missingW = tracker.Prior.Watts(missing);
        }

        return _weakSince is { } weak && now.Monotonic - weak >= Holds && lasts >= WeakAfter
            ? Diagnosis.Made(DiagnosisKind.WeakHeater, now, weak,
                new($"The heater gives about {tracker.Prior.Watts(usual.HeatingKPerHour - missing):0} W into the liquor; it used to give {tracker.Prior.Watts(usual.HeatingKPerHour):0} W. Look at cord, supply and scale on the element."))
            : Open(now);
    }

    private Diagnosis? Open(Stamp now) => _openSince is { } open && now.Monotonic - open >= Holds && tracker.Balance.OpenSince is null
        ? Diagnosis.Made(DiagnosisKind.LosingHeat, now, open,
            new($"The liquor gets about {_missingW:0} W less than it used to, as much as a vat loses without its lid or wrap. Cover it, and mind its level; if it is covered, look at the heater."))
        : null;

    /// <summary>In the band a thermostat may switch faster than a slope shows, and what lies between on and off is then taken for a weak heater.</summary>
    private bool MayBeCycling(RateLine line) =>
        !tracker.Heater.IsTold && (line.NewestC > (tracker.Thermostat.OnC ?? vat.Temperature.LowC) || line.KPerHour < SureDeviations * line.Sigma);
}
