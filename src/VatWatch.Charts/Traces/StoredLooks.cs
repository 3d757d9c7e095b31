using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Measurements;

namespace VatWatch.Charts.Traces;

/// <summary>Sums kept conditions up to one look a column: the state that held longest in it, and the weakest margin of reduction.</summary>
internal static class StoredLooks
{
    /// <summary>Looks at the start of each column, and one more at the end; none when nothing was kept.</summary>
    /// <param name="states">In order of time, from the one that held at <paramref name="from"/> on; taken once.</param>
    /// <param name="readings">Readings of the span: a column without any says nothing of the vat.</param>
    /// <param name="from">Start.</param>
    /// <param name="to">End.</param>
    public static IReadOnlyList<VatSnapshot> Of(IEnumerable<StoredState> states, IReadOnlyList<Measurement> readings, DateTimeOffset from, DateTimeOffset to, TimeSpan column)
    {
        var columns = new Column[(int)Math.Ceiling((to - from) / column)];
        StoredState? before = null;
        foreach (var state in states)
        {
            if (before is { } held)
                Hold(columns, held, held.Utc - from, state.Utc - from, column);
            before = state;
        }

        if (before is not { } last)
            return [];
        Hold(columns, last, last.Utc - from, to - from, column);
        var known = readings.Select(reading => (int)((reading.Stamp.Utc - from) / column)).ToHashSet();
        VatSnapshot[] looks = [.. columns.Select((one, index) => one.Evaluate(from + index * column, known.Contains(index)))];
        return [.. looks, looks[^1] with { Utc = to }];
    }

    private static void Hold(Column[] columns, StoredState state, TimeSpan start, TimeSpan end, TimeSpan length)
    {
        for (var index = Math.Max(0, (int)(start / length)); index < columns.Length && index * length < end; index++)
        {
            var since = start > index * length ? start : index * length;
            var until = end < (index + 1) * length ? end : (index + 1) * length;
            columns[index] ??= new Column();
            columns[index].Add(state, until - since);
        }
    }

    private sealed class Column
    {
        private readonly TimeSpan[] _held = new TimeSpan[Enum.GetValues<VatState>().Length];
        private double? _weakest;

        public void Add(StoredState state, TimeSpan held)
        {
            _held[(int)state.State] += held;
            _weakest = state.MarginMillivolts > _weakest || _weakest is null ? state.MarginMillivolts ?? _weakest : _weakest;
        }

        public VatState Longest => (VatState)Array.IndexOf(_held, _held.Max());

        public double? Weakest => _weakest;
    }

    private static VatSnapshot Evaluate(this Column? column, DateTimeOffset at, bool isKnown) =>
        column is null || !isKnown ? new VatSnapshot(at, VatState.Unknown, null, false) : new VatSnapshot(at, column.Longest, column.Weakest, false);
}
