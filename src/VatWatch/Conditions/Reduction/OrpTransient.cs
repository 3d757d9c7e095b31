namespace VatWatch.Conditions.Reduction;

/// <summary>
/// Recognises the transient that a dip or an addition leaves in ORP, and measures how the vat recovers from it: a slope during it says
/// nothing about the reducing agent. Begun by a person's word or by a step of the curve. Not thread safe.
/// </summary>
internal sealed class OrpTransient
{
    /// <summary>A step is more than the probe's drift in minutes can be; and more than its scatter. Engineering choice, no source.</summary>
    private const double LeastStepMillivolts = 12;
    private const double StepScatters = 6;
    private const int StepWithin = 3;
    private const int LevelFrom = 10;

    /// <summary>Back is within this of before, or this share of the rise.</summary>
    public const double BackMillivolts = 6;
    private const double BackShare = 0.2;

    /// <summary>No more movement than this is settled, mV/h.</summary>
    private const double SettledPerHour = 15;

    /// <summary>A rise that holds this share of itself is not recovering.</summary>
    private const double NotRecoveringShare = 0.7;

    /// <summary>A smaller answer to a person's act is none.</summary>
    private const double NoAnswerMillivolts = 5;

    private static readonly TimeSpan LeastLength = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan RecoveryShowsWithin = TimeSpan.FromMinutes(25);

    /// <summary>Reducing agents act within 20 to 60 min at 40 to 50 °C (indigo chemistry reference, common practice).</summary>
    private static readonly TimeSpan GreatestLength = TimeSpan.FromMinutes(90);

    private static readonly TimeSpan SameDip = TimeSpan.FromMinutes(5);

    /// <summary>So far below its peak, and this share of the rise, ORP comes back; it does so until it has risen over half of that again.</summary>
    private const double RecoveringMillivolts = 3;
    private const double RecoveringShare = 0.1;

    private double _peak;
    private TimeSpan _peakAt;
    private TimeSpan? _back;
    private bool _recovers;

    /// <summary>When it began; null while there is none.</summary>
    public TimeSpan? Since { get; private set; }

    /// <summary>When the first of the dips began that it is made of, each before the vat had come back from the one before; only with <see cref="Since"/>.</summary>
    public TimeSpan FirstSince { get; private set; }

    /// <summary>ORP before it, mV.</summary>
    public double Before { get; private set; }

    /// <summary>Begins one that a person told of at a moment.</summary>
    /// <returns>The recovery from the one before, when the vat had come back from it; null otherwise.</returns>
    public Recovery? Begin(Stamp at, List<TimedValue> points)
    {
        // What is told of later than it happened stands among points that came after it.
        var known = points.Count(point => point.At <= at.Monotonic);
        if (known == 0)
        {
            return null;
        }

        // The cold that yarn brings shows minutes after the entry that says so.
        if (Since is { } begun && at.Monotonic - begun < SameDip)
        {
            return null;
        }

        Recovery? recovered = null;
        if (Since is { } since && _back is { } back)
        {
            recovered = new Recovery(at.Plus(since - at.Monotonic), Before, _peak - Before, back - since, points[^1].Value - Before) { FromPeak = back - _peakAt };
            Since = null;
        }

        // A second dip before the vat has come back is part of the same recovery.
        Before = Since is null ? Level(points, known) : Before;
        (_peak, _peakAt, _recovers) = Since is null ? (points[^1].Value, points[^1].At, false) : (_peak, _peakAt, _recovers);
        FirstSince = Since is null ? at.Monotonic : FirstSince;
        Since = at.Monotonic;
        _back = null;
        return recovered;
    }

    /// <summary>Follows the curve by its newest point.</summary>
    /// <param name="points">Means of a minute, oldest first.</param>
    /// <param name="now">A stamp at or after the newest point.</param>
    /// <returns>The recovery, when the transient is over and was one; null otherwise.</returns>
    public Recovery? Follow(List<TimedValue> points, Stamp now)
    {
        if (Since is { } since)
        {
            return Advance(since, points, now);
        }

        if (Steps(points))
        {
            Before = Level(points, points.Count - StepWithin);
            (_peak, _peakAt, _recovers) = (points[^1].Value, points[^1].At, false);
            _back = null;
            Since = FirstSince = points[^StepWithin].At;
        }

        return null;
    }

    /// <summary>Whether ORP comes down from its peak.</summary>
    public bool IsRecovering(double millivolts)
    {
        var clearly = Math.Max(RecoveringMillivolts, RecoveringShare * (_peak - Before));
        _recovers = millivolts < _peak - (_recovers ? clearly / 2 : clearly);
        return Since is not null && _recovers;
    }

    /// <summary>Ends it without a recovery, after a gap.</summary>
    public void Clear() => Since = null;

    /// <summary>The potential at which ORP is back after a rise, mV.</summary>
    public static double BackAt(double beforeMillivolts, double riseMillivolts) => beforeMillivolts + Math.Max(BackMillivolts, BackShare * riseMillivolts);

    private Recovery? Advance(TimeSpan since, List<TimedValue> points, Stamp now)
    {
        var newest = points[^1];
        var lasted = newest.At - since;
        (_peak, _peakAt) = newest.Value > _peak ? (newest.Value, newest.At) : (_peak, _peakAt);
        var rise = _peak - Before;
        if (rise > NoAnswerMillivolts && lasted > TimeSpan.Zero && newest.Value < _peak - NoAnswerMillivolts / 2 && newest.Value <= BackAt(Before, rise))
        {
            _back ??= newest.At;
        }

        if (lasted < LeastLength)
        {
            return null;
        }

        var slope = RobustSlope.Through(OrpTracker.Since(points, newest.At - LeastLength))?.PerHour ?? 0;
        var stays = lasted >= RecoveryShowsWithin && newest.Value > Before + NotRecoveringShare * rise && slope > -SettledPerHour;
        // ORP that stands still and has not come back may yet do so: the yarn is still in.
        var mayComeBack = rise > NoAnswerMillivolts && _back is null && lasted < RecoveryShowsWithin;
        if ((mayComeBack || Math.Abs(slope) >= SettledPerHour) && !stays && lasted < GreatestLength)
        {
            return null;
        }

        Since = null;
        return rise <= NoAnswerMillivolts
            ? null
            : new Recovery(now.Plus(since - now.Monotonic), Before, rise, _back - since, newest.Value - Before) { FromPeak = _back - _peakAt };
    }

    private static bool Steps(List<TimedValue> points)
    {
        var earlier = points.Count - StepWithin;
        if (earlier < LevelFrom)
        {
            return false;
        }

        var level = Level(points, earlier);
        var scatter = 0.0;
        for (var i = earlier - LevelFrom; i < earlier; i++)
        {
            scatter += Math.Abs(points[i].Value - level) / LevelFrom;
        }

        // Two points agree, so that one bad minute is no step.
        var least = Math.Max(LeastStepMillivolts, StepScatters * scatter);
        return Math.Abs(points[^1].Value - level) > least && Math.Abs(points[^2].Value - level) > least / 2
            && Math.Sign(points[^1].Value - level) == Math.Sign(points[^2].Value - level);
    }

    /// <summary>Median of the points before <paramref name="end"/>.</summary>
    private static double Level(List<TimedValue> points, int end)
    {
        var from = Math.Max(0, end - LevelFrom);
        Span<double> values = stackalloc double[end - from];
        for (var i = from; i < end; i++)
        {
            values[i - from] = points[i].Value;
        }

        return RankedValues.At(values, values.Length / 2);
    }
}
