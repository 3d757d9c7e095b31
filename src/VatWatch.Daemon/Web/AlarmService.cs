using VatWatch.Alarms;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Web;

/// <summary>Hands acts on alarms from pages and programs to the alarm desk, with the same checks for both. Thread safe.</summary>
internal sealed class AlarmService(IAlarmActions desk, TimeProvider time)
{
    /// <summary>A change is on disk within milliseconds; past this the disk is in trouble and the person should hear so.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(10);

    private static readonly AlarmOutcome TooSlow = new(AlarmOutcomeKind.TooSlow, "The store did not confirm it within 10 s; look at the alarm and try again.");

    /// <summary>The name as it will be kept, or null when it is none.</summary>
    public static string? TidyName(string? by) => FreeText.Clean(by) is { Length: > 0 and <= AlarmRequest.LongestBy } name ? name : null;

    /// <summary>Checks and carries out; the outcome says what to tell.</summary>
    public async Task<AlarmOutcome> CarryOutAsync(AlarmRequest request, CancellationToken cancel)
    {
        if (!request.TryMake(out var act, out var fault))
        {
            return new(AlarmOutcomeKind.Refused, Sentence(fault));
        }

        using var deadline = new CancellationTokenSource(LongestWait, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, deadline.Token);
        try
        {
            return await desk.CarryOutAsync(act, either.Token).WaitAsync(either.Token) is { } change
                ? new(AlarmOutcomeKind.OnDisk, AlarmActText.Done(act.Kind, change))
                : new(AlarmOutcomeKind.NothingToDo, $"Nothing was done: {AlarmActText.NothingDone(act)}.");
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return TooSlow;
        }
        catch (Exception problem) when (problem is TimeoutException or StoreUnavailableException)
        {
            return TooSlow;
        }
    }

    private static string Sentence(string clause) => $"{char.ToUpperInvariant(clause[0])}{clause[1..]}.";
}

/// <summary>What became of an act on an alarm.</summary>
/// <param name="Kind">In a word.</param>
/// <param name="Sentence">What to tell.</param>
internal readonly record struct AlarmOutcome(AlarmOutcomeKind Kind, string Sentence);
