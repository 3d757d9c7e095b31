using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Charts.Traces;

/// <summary>
/// Works the conditions of a vat out anew from what was recorded: measurements and entries go through a <see cref="ConditionAssessor"/> in order of
/// their labels, with one look a minute. It knows no clock but the record's, so the same record gives the same conditions.
/// </summary>
public static class ConditionTrace
{
    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(1);

    /// <summary>More looks than this show nothing that a chart or a table could; longer spans are looked at less often. A day has 1440 minutes.</summary>
    private const int MostLooks = 1500;

    /// <summary>The conditions from the first measurement to the last.</summary>
    /// <param name="vat">The vat.</param>
    /// <param name="units">Units of the sentences.</param>
    /// <param name="measurements">In order of their labels.</param>
    /// <param name="entries">In order of their labels; withdrawn ones are passed over.</param>
    /// <param name="earlier">What had been learned of the vat's heat before; null for nothing.</param>
    public static IReadOnlyList<VatCondition> Of(
        VatDefinition vat, DisplayUnits units, IReadOnlyList<Measurement> measurements, IEnumerable<SessionEntry> entries, LearnedHeat? earlier = null)
    {
        ArgumentNullException.ThrowIfNull(measurements);
        if (measurements.Count == 0)
            return [];
        var (first, last) = (measurements[0].Stamp.Utc, measurements[^1].Stamp.Utc);
        var assessor = new ConditionAssessor(vat, units);
        if (earlier is not null)
            assessor.Restore(earlier);
        Stamp At(DateTimeOffset utc) => new(utc, utc - first, true);

        var step = Step(last - first);
        var next = first + step;
        var conditions = new List<VatCondition>();
        var acts = new Queue<VatAct>(entries.Where(entry => entry.Withdrawn is null && entry.At.Utc >= first).Select(entry => entry.Act()).OfType<VatAct>());
        foreach (var measurement in measurements)
        {
            var utc = measurement.Stamp.Utc;
            for (; next <= utc; next += step)
                conditions.Add(assessor.Assess(At(next)));
            while (acts.TryPeek(out var act) && act.At.Utc <= utc)
                assessor.Note(acts.Dequeue() with { At = At(act.At.Utc) });
            assessor.Accept(measurement with { Stamp = At(utc) });
        }

        conditions.Add(assessor.Assess(At(last)));
        return conditions;
    }

    /// <summary>Time between looks over a span: a minute, or whole minutes for a longer one.</summary>
    internal static TimeSpan Step(TimeSpan span) => Shortest * Math.Max(1, Math.Ceiling(span / Shortest / MostLooks));
}
