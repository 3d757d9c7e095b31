using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Measurements;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Traces;

/// <summary>
/// Works the conditions of a vat out anew from what was recorded: measurements and entries go through a <see cref="ConditionAssessor"/> in order of
/// their labels, with one look a minute. It knows no clock but the record's, so the same record gives the same conditions. Not thread safe.
/// </summary>
public sealed class ConditionTrace
{
    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(1);

    /// <summary>More looks than this show nothing that a chart or a table could; longer spans are looked at less often. A day has 1440 minutes.</summary>
    private const int MostLooks = 1500;

    private readonly List<VatCondition> _conditions = [];
    private readonly ConditionAssessor _assessor;
    private readonly Queue<SessionEntry> _entries;
    private readonly TimeSpan _step;
    private DateTimeOffset _first;
    private DateTimeOffset _next;
    private DateTimeOffset? _last;

    private ConditionTrace(VatDefinition vat, DisplayUnits units, TimeSpan step, IEnumerable<SessionEntry> entries, LearnedHeat? earlier)
    {
        _assessor = new ConditionAssessor(vat, units);
        _entries = new Queue<SessionEntry>(entries.Where(entry => entry.Withdrawn is null));
        _step = step;
        if (earlier is not null)
            _assessor.Restore(earlier);
    }

    /// <summary>The conditions from the first measurement to the last.</summary>
    /// <param name="measurements">In order of their labels.</param>
    /// <param name="entries">In order of their labels; withdrawn ones are passed over.</param>
    /// <param name="earlier">What had been learned of the vat's heat before; null for nothing.</param>
    public static IReadOnlyList<VatCondition> Of(
        VatDefinition vat, DisplayUnits units, IReadOnlyList<Measurement> measurements, IEnumerable<SessionEntry> entries, LearnedHeat? earlier = null)
    {
        return measurements.Count == 0 ? [] : Of(vat, units, measurements, measurements[^1].Stamp.Utc - measurements[0].Stamp.Utc, entries, earlier);
    }

    /// <summary>The same of measurements that may still be arriving.</summary>
    /// <param name="measurements">In order of their labels; taken once.</param>
    /// <param name="span">About how far they reach.</param>
    /// <param name="entries">In order of their labels; withdrawn ones are passed over.</param>
    /// <param name="earlier">What had been learned of the vat's heat before; null for nothing.</param>
    public static IReadOnlyList<VatCondition> Of(
        VatDefinition vat, DisplayUnits units, IEnumerable<Measurement> measurements, TimeSpan span, IEnumerable<SessionEntry> entries, LearnedHeat? earlier)
    {
        var trace = new ConditionTrace(vat, units, Step(span), entries, earlier);
        foreach (var measurement in measurements)
            trace.Take(measurement);
        return trace.End();
    }

    /// <summary>Time between looks over a span: a minute, or whole minutes for a longer one.</summary>
    internal static TimeSpan Step(TimeSpan span) => Shortest * Math.Max(1, Math.Ceiling(span / Shortest / MostLooks));

    private Stamp At(DateTimeOffset utc) => new(utc, utc - _first, true);

    private void Take(Measurement measurement)
    {
        var utc = measurement.Stamp.Utc;
        if (_last is null)
            Begin(utc);
        _last = utc;
        for (; _next <= utc; _next += _step)
            _conditions.Add(_assessor.Assess(At(_next)));
        while (_entries.TryPeek(out var entry) && entry.At.Utc <= utc)
        {
            if (_entries.Dequeue().Act() is { } act)
                _assessor.Note(act with { At = At(act.At.Utc) });
        }

        _assessor.Accept(measurement with { Stamp = At(utc) });
    }

    private void Begin(DateTimeOffset utc)
    {
        (_first, _next) = (utc, utc + _step);
        while (_entries.TryPeek(out var early) && early.At.Utc < utc)
            _entries.Dequeue();
    }

    private List<VatCondition> End()
    {
        if (_last is { } last)
            _conditions.Add(_assessor.Assess(At(last)));
        return _conditions;
    }
}
