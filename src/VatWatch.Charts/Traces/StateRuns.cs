using VatWatch.Conditions;

namespace VatWatch.Charts.Traces;

/// <summary>A stretch in which a vat was in one state.</summary>
/// <param name="State">The state.</param>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC: the first look that saw another state, or the last look of all.</param>
internal sealed record StateRun(VatState State, DateTimeOffset From, DateTimeOffset To);

/// <summary>Puts looks at a vat together to <see cref="StateRun"/>s.</summary>
internal static class StateRuns
{
    /// <summary>The runs within a record, in order of time.</summary>
    public static IReadOnlyList<StateRun> Of(VatRecord record)
    {
        var runs = new List<StateRun>();
        foreach (var condition in record.Conditions.Where(condition => condition.Stamp.Utc >= record.From && condition.Stamp.Utc <= record.To))
        {
            var at = condition.Stamp.Utc;
            if (runs.Count > 0)
                runs[^1] = runs[^1] with { To = at };
            if (runs.Count == 0 || runs[^1].State != condition.State)
                runs.Add(new StateRun(condition.State, at, at));
        }

        runs.RemoveAll(run => run.To <= run.From);
        return runs;
    }
}
