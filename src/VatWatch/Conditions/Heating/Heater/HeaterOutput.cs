using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// Holds what the liquor gets from its heater against what it used to get: nothing, too little, or less by as much as an open lid costs. Signatures as in the
/// heat-balance reference, "diagnostics"; thresholds are engineering choices. Not thread safe.
/// </summary>
internal sealed class HeaterOutput(VatDefinition vat, HeatTracker tracker)
{
    /// <summary>Surely less than this share of the least that is plausible is none.</summary>
    private const double NotHeatingShare = 0.3;

    /// <summary>A controller that lets so little through may hold the vat and warm it no further.</summary>
    private const double HoldsShare = 0.5;
    private const double SureOfShare = 2;

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

    /// <summary>Between nights mains move the power by this share, rooms and lids the losses by this, and a start lies anywhere within a step of the thermometer.</summary>
    private const double MainsShare = 0.03;
    private const double LossShare = 0.15;
    private const double StepShare = 0.4;

    /// <summary>A lid costs what is estimated, within these shares; nearer to the room than this it costs nothing that shows, K.</summary>
    private const double LidShowsAboveRoomK = 12;
    private const double LeastLidShare = 0.4;
    private const double LeastLidShareOff = 0.75;
    private const double GreatestLidShare = 1.8;

    /// <summary>And more is missing than the nights differ by, in standard deviations.</summary>
    private const double SureMissing = 2.5;

    /// <summary>A slope is that of the heater once layers and walls follow.</summary>
    private static readonly TimeSpan OnAfter = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan OffAfter = TimeSpan.FromMinutes(15);

    /// <summary>A lid shows in a slope later; before layers and walls follow, only against more than one night.</summary>
    private static readonly TimeSpan LidAfter = TimeSpan.FromMinutes(40);
    private const int NightsOfFirstHour = 2;

    /// <summary>
    /// It must be missing for so long more than it is not, over several pauses of a thermostat if need be: a small step of the liquor does not last so long in a slope. What was said stands
    /// until as much has spoken against it.
    /// </summary>
    private static readonly TimeSpan Holds = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan LongestBeat = TimeSpan.FromMinutes(3);

    /// <summary>What was said stands while nothing can be compared, for so long.</summary>
    private static readonly TimeSpan Stands = TimeSpan.FromHours(1);

    /// <summary>A lid may be put on meanwhile; no element mends itself.</summary>
    private static readonly TimeSpan WeakStands = TimeSpan.FromHours(12);

    /// <summary>
    /// So near to where a thermostat lets the heater come on, K, a quick one may act already; and without the heater only what cools down to there is like what was learned: losses fall by
    /// more than a straight line as it cools on.
    /// </summary>
    private const double HoldK = 1;

    private bool _isHeating = true;
    private TimeSpan? _shortSince;
    private TimeSpan _shortFor;
    private TimeSpan _comparedAt;
    private TimeSpan? _heldAt;
    private Diagnosis? _short;

    /// <summary>What seems wrong with it now; null while nothing does.</summary>
    public Diagnosis? Evaluate(Stamp now, HeatSnapshot look, double? levelPercent)
    {
        // What is held against the usual only changes with the means.
        if (tracker.Newest?.At != _heldAt)
        {
            _heldAt = tracker.Newest?.At;
            _short = FallsShort(now, look);
        }

        return NotHeating(now, look, levelPercent) ?? (tracker.Newest is { } newest ? tracker.Earlier.Draw.Evaluate(now, newest.LiquorC) : null) ?? _short;
    }

    private Diagnosis? NotHeating(Stamp now, HeatSnapshot look, double? levelPercent)
    {
        var lasts = now.Monotonic - tracker.Heater.Since;
        if (look.HeaterOn != true || !tracker.Heater.IsTold || lasts < UncoveredAfter || tracker.Earlier.Draw.Share < HoldsShare)
        {
            _isHeating = true;
            return null;
        }

        if (look.Line is not { } line)
        {
            return null;
        }

        var expected = look.Estimate.HeatingKPerHour - 1.645 * Math.Sqrt(look.Estimate.HeatingVariance);
        var gives = line.KPerHour - look.Estimate.Rate(line.NewestC, heaterOn: false).KPerHour;

        var shows = TimeSpan.FromHours(Math.Clamp(ShowsAfterK / expected, NotHeatingAfter.TotalHours, NotHeatingAtLast.TotalHours));

        // A room that warms by turns lets a probe in air rise by turns: once it was told, only a rise as is to be expected ends it.
        _isHeating = _isHeating || lasts < shows ? gives + SureOfShare * line.Sigma > NotHeatingShare * expected : gives > expected && !tracker.WarmUp.IsSlow;
        if (expected <= 0 || _isHeating)
        {
            return null;
        }

        if (levelPercent < LowLevelPercent)
        {
            return Diagnosis.Made(DiagnosisKind.ElementUncovered, now, tracker.Heater.Since,
                new($"The heater draws power, the liquor does not warm and stands at {levelPercent.Value:0} %: the element may be dry. Unplug it at the wall now; a dry element glows within a minute."));
        }

        return lasts < shows ? null : Diagnosis.Made(DiagnosisKind.HeaterNotHeating, now, tracker.Heater.Since,
            new($"The heater has drawn power for {DisplayUnits.Duration(lasts)}, but the liquor changes by only {line.KPerHour:K/h}: the probe or the element hangs out of the liquor, or the element is dead. Do not reach in with the power on."));
    }

    /// <summary>Less heat than usual gets into the liquor, or stays in it.</summary>
    private Diagnosis? FallsShort(Stamp now, HeatSnapshot look)
    {
        if (tracker.IsSwitchedOff)
        {
            _shortSince = null;
            return null;
        }

        // Where a thermostat may have cut off unseen, how far the liquor has come is the thermostat's doing.
        var risen = tracker.Newest is { } mean && !MayBeCut(mean.LiquorC) ? tracker.Earlier.FirstRise.Seen(mean, look.Estimate) : null;
        Compared? byRise = risen is { } seen ? ByRise(seen, look) : null;
        if ((byRise?.Trouble is null ? ByRate(now, look) ?? byRise : byRise) is not { } compared)
        {
            _shortSince = now.Monotonic - _comparedAt < (_short?.Kind == DiagnosisKind.WeakHeater ? WeakStands : Stands) ? _shortSince : null;
            return _shortSince is null ? null : _short;
        }

        var beat = now.Monotonic - _comparedAt is var passed && passed < LongestBeat ? passed : LongestBeat;
        _comparedAt = now.Monotonic;
        if (compared.Trouble is not { } trouble)
        {
            Learn(risen);

            // How a vat cools says nothing of its heater.
            _shortFor -= _short?.Kind == DiagnosisKind.WeakHeater && look.HeaterOn != true ? TimeSpan.Zero : beat;
            _shortSince = _shortFor > TimeSpan.Zero ? _shortSince : null;
            return _shortSince is null ? null : _short;
        }

        _shortFor = _shortSince is null ? TimeSpan.Zero : TimeMath.Min(_shortFor + beat, 2 * Holds);
        _shortSince ??= now.Monotonic;
        return _shortFor < Holds ? _short : Diagnosis.Made(compared.Kind, now, _shortSince.Value, trouble);
    }

    /// <summary>In the first hour: how far the liquor has come.</summary>
    private Compared ByRise(in Risen seen, HeatSnapshot look)
    {
        var (hours, estimate) = (seen.After.TotalHours, look.Estimate);
        var (byMains, byLoss, byStep) = (MainsShare * estimate.HeatingKPerHour * hours, LossShare * seen.LostK, StepShare * tracker.GrainK);
        var sure = SureMissing * Math.Sqrt(byMains * byMains + byLoss * byLoss + byStep * byStep);
        return tracker.Balance.OpenSince is null && seen.UsualK is { } usual && usual - seen.GainK > Math.Max(sure, WeakAtFirstShare * usual)
            ? new(DiagnosisKind.WeakHeater,
                new($"In its first {DisplayUnits.Duration(seen.After)} the heater has brought the liquor {seen.GainK:K}, where it used to bring {usual:K}: it gives less than it did. Look at cord, supply and scale on the element."))
            : default;
    }

    private void Learn(Risen? seen)
    {
        if (seen is { } well && !tracker.Balance.OpenWasTold)
        {
            tracker.Earlier.FirstRise.Learn(well);
        }
    }

    /// <summary>How fast it goes on, so long after the heater came on or at its warmth.</summary>
    private Compared? ByRate(Stamp now, HeatSnapshot look)
    {
        if (Comparable(now, look) is not { } line)
        {
            return null;
        }

        var on = look.HeaterOn == true;
        var isFirst = on && IsFirstHour(now);

        // One law for every night: what was learned of the losses meanwhile must not look like a change of the heater.
        var without = -tracker.Prior.KPerHour(tracker.Prior.LossWPerK * (line.NewestC - (tracker.Newest?.RoomC ?? tracker.Prior.RoomC)));
        var then = isFirst ? tracker.Earlier.Rates.First(SinceOn(now)) + without : tracker.Earlier.Rates.At(on, line.NewestC);
        var isKnown = tracker.Balance.OpenSince is null && (then is not null || !isFirst);
        if (isKnown && tracker.Balance.Usual is { } usual && (usual.IsSure || then is not null) && Missing(now, look, line, usual, then) is { } missing)
        {
            return Told(line, missing.KPerHour, missing.MayBeLid);
        }

        if (!tracker.Balance.OpenWasTold && isFirst)
        {
            tracker.Earlier.Rates.AddFirst(SinceOn(now), line.KPerHour - without);
        }
        else if (!tracker.Balance.OpenWasTold)
        {
            tracker.Earlier.Rates.Add(on, line.NewestC, line.KPerHour);
        }

        return default(Compared);
    }

    /// <summary>What is missing, where it is more than nights differ by.</summary>
    private (double KPerHour, bool MayBeLid)? Missing(Stamp now, HeatSnapshot look, RateLine line, UsualHeat usual, double? then)
    {
        var (on, roomC) = (look.HeaterOn == true, look.Estimate.RoomC);
        var (missing, sigma) = usual.Missing(line, roomC, on, then);
        if (!on && then > 0)
        {
            // No vat warms without its heater: a layer rose to the probe in those pauses.
            missing = Math.Min(missing, usual.Missing(line, roomC, on, null).KPerHour);
        }

        var lid = tracker.Prior.KPerHour(tracker.Prior.OpenLidW(line.NewestC, roomC));
        var mayBeLid = line.NewestC - roomC > LidShowsAboveRoomK && (!on || missing < GreatestLidShare * lid);
        return missing < Math.Max(SureMissing * sigma, Needed(now, usual, on, mayBeLid ? lid : null)) ? null : (missing, mayBeLid);
    }

    private Compared Told(RateLine line, double missing, bool mayBeLid) => mayBeLid
        ? new(DiagnosisKind.LosingHeat,
            new($"The liquor gets about {tracker.Prior.Watts(missing):0} W less than it used to at this warmth, as much as a vat loses without its lid or wrap. Cover it, and mind its level; if it is covered, look at the heater."))
        : new(DiagnosisKind.WeakHeater,
            new($"The liquor changes by {line.KPerHour:K/h}, where it used to change by {line.KPerHour + missing:K/h}: the heater gives less than it did, by about {tracker.Prior.Watts(missing):0} W. Look at cord, supply and scale on the element."));

    private TimeSpan SinceOn(Stamp now) => now.Monotonic - tracker.Heater.Since;

    private bool IsFirstHour(Stamp now) => SinceOn(now) < HeatTracker.Settled;

    /// <summary>The slope, once it is like that of earlier nights.</summary>
    private RateLine? Comparable(Stamp now, HeatSnapshot look)
    {
        if (look.HeaterOn is not { } on || look.Line is not { } line)
        {
            return null;
        }

        var lasts = now.Monotonic - tracker.RegimeSince;
        var isLike = on ? lasts >= OnAfter && !MayBeCycling(line) : lasts >= OffAfter && line.NewestC > HoldsAboveC;
        return isLike ? line : null;
    }

    /// <summary>The least that must be missing to be a fault, K/h.</summary>
    /// <param name="now">The moment.</param>
    /// <param name="usual">What the vat was known for.</param>
    /// <param name="on">Whether the heater is on.</param>
    /// <param name="lid">What a lid costs, K/h; null where it cannot be one.</param>
    private double Needed(Stamp now, UsualHeat usual, bool on, double? lid)
    {
        var weak = on ? (IsFirstHour(now) ? WeakAtFirstShare : WeakShare) * usual.HeatingKPerHour : double.PositiveInfinity;
        var open = lid is { } costs && usual.IsOfEarlier && (!on || LidShows(now)) ? (on ? LeastLidShare : LeastLidShareOff) * costs : double.PositiveInfinity;
        return Math.Min(weak, open);
    }

    private bool LidShows(Stamp now) => now.Monotonic - tracker.RegimeSince >= LidAfter && (!IsFirstHour(now) || tracker.Earlier.Rates.FirstNights(SinceOn(now)) >= NightsOfFirstHour);

    /// <summary>In the band a thermostat may switch faster than a slope shows, and what lies between on and off is then taken for a weak heater.</summary>
    private bool MayBeCycling(RateLine line) => MayBeCut(line.NewestC) || (!tracker.Heater.IsTold && !line.Rises);

    private bool MayBeCut(double liquorC) => tracker.Thermostat.MayAct(liquorC) || tracker.Earlier.Draw.Share < HoldsShare || (!tracker.Heater.IsTold && liquorC > (HoldsAboveC ?? vat.Temperature.LowC));

    /// <summary>Where a thermostat may act, that was seen to let the heater come on, °C; null when none was.</summary>
    private double? HoldsAboveC => tracker.Thermostat.OnC - HoldK;

    /// <summary>What a comparison comes to; without a trouble all is well.</summary>
    private readonly record struct Compared(DiagnosisKind Kind, Sentence? Trouble);
}
