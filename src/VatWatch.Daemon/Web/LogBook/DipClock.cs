using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>How long the goods have been in or out of the liquor, and how long they should be.</summary>
/// <param name="Words">What is counted.</param>
/// <param name="Passed">Time since it began.</param>
/// <param name="Goal">How long it should be; null without a wish.</param>
/// <param name="DueWords">What to do when it has been so long.</param>
/// <param name="Count">Which dip of how many, or that all are done; null without a wish.</param>
public sealed record DipClock(string Words, TimeSpan Passed, TimeSpan? Goal, string DueWords, string? Count)
{
    /// <summary>Whether it is time.</summary>
    public bool IsDue => Passed >= Goal;

    /// <summary>Reads a session.</summary>
    public static DipClock? Of(SessionTally tally, DipWish? wish, DateTimeOffset now)
    {
        if (tally.Dips is not [.., var last])
        {
            return null;
        }

        var isIn = last.Out is null;
        var isDone = !isIn && wish?.Dips is { } dips && tally.Dips.Count >= dips;
        var passed = now - (last.Out ?? last.In).Utc;
        var minutes = isIn ? wish?.DipMinutes : isDone ? null : wish?.AiringMinutes;
        return new(
            isIn ? "In" : "Out",
            passed > TimeSpan.Zero ? passed : TimeSpan.Zero,
            minutes is { } wished ? TimeSpan.FromMinutes(wished) : null,
            isIn ? "Time to take it out" : "Time for the next dip",
            wish?.Dips is not { } many ? null : isDone ? $"all {many} dips done" : $"dip {Math.Min(tally.Dips.Count + (isIn ? 0 : 1), many)} of {many}");
    }
}
