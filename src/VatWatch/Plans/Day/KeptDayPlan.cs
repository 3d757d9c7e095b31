namespace VatWatch.Plans.Day;

/// <summary>A day's plan as it was kept, to run along with the day and to be held against what came. Immutable.</summary>
/// <param name="Goods">As they were written.</param>
/// <param name="Plan">What was foretold.</param>
public sealed record KeptDayPlan(IReadOnlyList<string> Goods, DayPlan Plan)
{
    /// <summary>
    /// What is still to come, moved by as much as the day is late or ahead.
    /// </summary>
    /// <param name="ends">When the goods came out of each dip so far, UTC, in order of time.</param>
    /// <param name="inSince">Since when goods are in the vat, UTC; null while none are.</param>
    /// <param name="now">UTC.</param>
    public (TimeSpan Shift, IReadOnlyList<PlannedDip> ToCome) Moved(IReadOnlyList<DateTimeOffset> ends, DateTimeOffset? inSince, DateTimeOffset now)
    {
        var dips = Plan.Dips.ToList();
        var next = Math.Min(ends.Count, dips.Count);
        var shift = inSince is { } since && next < dips.Count ? since - dips[next].In
            : next > 0 ? ends[next - 1] - dips[next - 1].Out
            : TimeSpan.Zero;
        var overdue = next < dips.Count ? now - (inSince is null ? dips[next].In : dips[next].Out) : TimeSpan.Zero;
        shift = overdue > shift ? overdue : shift;
        return (shift, [.. dips.Skip(next).Select(dip => dip with { In = dip.In + shift, Out = dip.Out + shift, Aired = dip.Aired + shift })]);
    }
}
