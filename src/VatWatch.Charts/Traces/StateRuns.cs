using VatWatch.Conditions;

namespace VatWatch.Charts.Traces;

/// <summary>A stretch in which a vat was in one state.</summary>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC: the first look that saw another state, or the last look of all.</param>
internal sealed record StateRun(VatState State, DateTimeOffset From, DateTimeOffset To);

/// <summary>Puts looks at a vat together to <see cref="StateRun"/>s.</summary>
internal static class StateRuns
{
    /// <summary>More runs than this are a blur on any picture.</summary>
    public const int Most = 600;

    /// <summary>The runs within a record, in order of time; of more than <see cref="Most"/>, that many stretches with the state that held longest in each.</summary>
    public static IReadOnlyList<StateRun> Of(VatRecord record)
    {
        var runs = All(record);
        return runs.Count > Most ? Coarser(runs, (runs[^1].To - runs[0].From) / Most) : runs;
    }

    private static List<StateRun> All(VatRecord record)
    {
        var runs = new List<StateRun>();
        foreach (var look in record.Looks)
        {
            if (runs.Count > 0)
                runs[^1] = runs[^1] with { To = look.Utc };
            if (runs.Count == 0 || runs[^1].State != look.State)
                runs.Add(new StateRun(look.State, look.Utc, look.Utc));
        }

        runs.RemoveAll(run => run.To <= run.From);
        return runs;
    }

    private static List<StateRun> Coarser(List<StateRun> runs, TimeSpan stretch)
    {
        var coarse = new List<StateRun>();
        var held = new Dictionary<VatState, TimeSpan>();
        var end = runs[0].From + stretch;
        foreach (var run in runs)
        {
            var from = run.From;
            for (; run.To > end; from = end, end += stretch)
            {
                Hold(held, run.State, end - from);
                Add(coarse, held, end - stretch, end);
            }

            Hold(held, run.State, run.To - from);
        }

        Add(coarse, held, end - stretch, runs[^1].To);
        return coarse;
    }

    private static void Hold(Dictionary<VatState, TimeSpan> held, VatState state, TimeSpan time) => held[state] = held.GetValueOrDefault(state) + time;

    private static void Add(List<StateRun> coarse, Dictionary<VatState, TimeSpan> held, DateTimeOffset from, DateTimeOffset to)
    {
        var state = held.MaxBy(one => one.Value).Key;
        held.Clear();
        if (coarse.Count > 0 && coarse[^1].State == state)
            coarse[^1] = coarse[^1] with { To = to };
        else
            coarse.Add(new StateRun(state, from, to));
    }
}
