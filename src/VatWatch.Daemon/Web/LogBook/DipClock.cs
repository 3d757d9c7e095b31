using VatWatch.Daemon.Web.Pages;
using VatWatch.Science.Dosing;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>How long the goods have been in or out of the liquor, or a dose at work, and how long they should be.</summary>
/// <param name="Words">What is counted.</param>
/// <param name="Passed">Time since it began.</param>
/// <param name="Goal">How long it should be; null without a wish.</param>
/// <param name="DueWords">What to do when it has been so long.</param>
/// <param name="Count">Which dip of how many, or that all are done; null without a wish.</param>
public sealed record DipClock(string Words, TimeSpan Passed, TimeSpan? Goal, string DueWords, string? Count)
{
    /// <summary>After this a dose is not waited for any more: whoever did not read again has gone home.</summary>
    private static readonly TimeSpan LongestAfterDose = TimeSpan.FromHours(2);

    /// <summary>Whether it is time.</summary>
    public bool IsDue => Passed >= Goal;

    /// <summary>The wait after a portion of soda ash or reducing agent, when that is what happened last; null otherwise.</summary>
    /// <param name="recent">What stands of the log book, oldest first.</param>
    public static DipClock? OfDose(IReadOnlyList<SessionEntry> recent, LocalClock clock)
    {
        var last = recent.LastOrDefault(entry => entry.Kind is EntryKind.DipIn or EntryKind.DipOut or EntryKind.Added or EntryKind.MadeAnew or EntryKind.Reading);
        if (last is not { Kind: EntryKind.Added } || Wait(last.Material) is not { } wait || clock.Now.Utc - last.At.Utc is var passed && (passed < TimeSpan.Zero || passed > LongestAfterDose))
        {
            return null;
        }

        var minutes = TimeSpan.FromMinutes(wait.Minutes);
        return new($"Dose in, read again at {clock.Hour(last.At.Utc + minutes)}:", passed, minutes, $"Read the {(last.Material == Material.ReducingAgent ? "ORP" : "pH")} again", null);
    }

    private static DoseWait? Wait(Material? material) => material switch
    {
        Material.ReducingAgent => DoseWait.ForReducer,
        Material.SodaAsh or Material.WashingSoda or Material.Lye or Material.Lime => DoseWait.ForAlkali,
        _ => null,
    };

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
