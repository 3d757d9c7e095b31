namespace VatWatch.Conditions.Reduction;

/// <summary>The recoveries of one session, and whether they say that the reducing agent runs out. Holds at most <see cref="Capacity"/>. Not thread safe.</summary>
internal sealed class RecoveryLog
{
    public const int Capacity = 50;

    /// <summary>Fewer say nothing.</summary>
    private const int LeastRecoveries = 3;

    /// <summary>So much slower than at first, and so much weaker than before, is a sign. Engineering choices, no source.</summary>
    private const double SlowerTimes = 1.8;
    private const double CreepMillivolts = 20;

    /// <summary>A vat that comes back within minutes is quick, whatever it was at first; this long a recovery is slow in any vat.</summary>
    private static readonly TimeSpan Quick = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan Slow = TimeSpan.FromMinutes(20);

    /// <summary>A creep says something where as many dips more would bring the vat to its mark of weak.</summary>
    private const int DipsAhead = 4;
    private const double ShortMillivolts = 10;

    private static readonly TimeSpan Session = TimeSpan.FromHours(14);

    private readonly List<Recovery> _recoveries = [];

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<Recovery> All => _recoveries;

    public void Add(Recovery recovery)
    {
        _recoveries.RemoveAll(old => recovery.At.Since(old.At) > Session);
        if (_recoveries.Count == Capacity)
        {
            _recoveries.RemoveAt(0);
        }

        _recoveries.Add(recovery);
    }

    /// <summary>Fed or sharpened: what was before says nothing about what comes.</summary>
    public void Clear() => _recoveries.Clear();

    /// <summary>The sign that reducing agent runs out; null when there is none.</summary>
    /// <param name="weakMillivolts">The vat's mark of a weak reduction, mV; null when it has none.</param>
    public Diagnosis? RunningOut(double? weakMillivolts)
    {
        if (_recoveries.Count < LeastRecoveries)
        {
            return null;
        }

        var (first, last) = (_recoveries[0], _recoveries[^1]);
        var level = last.BeforeMillivolts + last.ShortfallMillivolts;
        var creep = level - first.BeforeMillivolts;
        string? sign = null;
        if (_recoveries.TakeLast(2).All(recovery => recovery.Time is null && recovery.ShortfallMillivolts > ShortMillivolts))
        {
            sign = $"after the last two dips ORP stayed {last.ShortfallMillivolts:0} mV above where it was";
        }
        else if (creep > CreepMillivolts && !(level + DipsAhead * creep / _recoveries.Count < weakMillivolts))
        {
            sign = $"over {_recoveries.Count} dips ORP has crept up by {creep:0} mV";
        }
        else if (first.FromPeak is { } fast && last.FromPeak is { } slow && _recoveries[^2].FromPeak is { } before && slow >= Slow && slow > TimeMath.Max(fast, Quick) * SlowerTimes && before > fast)
        {
            sign = $"recovery takes {DisplayUnits.Duration(slow)}, at first it took {DisplayUnits.Duration(fast)}";
        }

        return sign is null ? null : new Diagnosis(DiagnosisKind.ReducerRunningOut, $"The reducing agent runs out: {sign}. Sharpen before the next dip.") { Since = last.At };
    }
}

/// <summary>How a vat came back after a dip or an addition.</summary>
/// <param name="At">When it was disturbed.</param>
/// <param name="BeforeMillivolts">ORP before, mV against the vat's reference electrode.</param>
/// <param name="RiseMillivolts">How far ORP rose at most, mV.</param>
/// <param name="Time">Time until it was back; null when it did not come back.</param>
/// <param name="ShortfallMillivolts">How far from before it settled, mV; above 0 the vat is weaker than it was.</param>
public sealed record Recovery(Stamp At, double BeforeMillivolts, double RiseMillivolts, TimeSpan? Time, double ShortfallMillivolts)
{
    /// <summary>The same from the peak on, which does not depend on how long the yarn was in; null when it did not come back.</summary>
    public TimeSpan? FromPeak { get; init; }
}
