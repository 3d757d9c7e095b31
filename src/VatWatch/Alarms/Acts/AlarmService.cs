using Microsoft.Extensions.Logging;
using VatWatch.Store;

namespace VatWatch.Alarms.Acts;

/// <summary>
/// What people may do with alarms, whichever way they ask: checks the request, has it carried out and says in words what came of it. Pages, the
/// interface, command topics and verbs all go through here. Thread safe.
/// </summary>
/// <param name="actions">Carries out what was checked.</param>
/// <param name="time">The wall's clock.</param>
/// <param name="log">Where a disk that does not confirm is logged.</param>
public sealed partial class AlarmService(IAlarmActions actions, TimeProvider time, ILogger<AlarmService> log)
{
    /// <summary>A change is on disk within milliseconds; past this the disk is in trouble and the person should hear so.</summary>
    public static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(10);

    private static readonly AlarmOutcome Unconfirmed =
        new(AlarmOutcomeKind.Unconfirmed, $"the store did not confirm it within {DisplayUnits.Duration(LongestWait)}; look at the alarm and try again");

    /// <summary>What is said of everything that the disk has not taken.</summary>
    public const string HeldInMemory = "The disk does not take it: it is held in memory until the disk does, and lost if VatWatch ends before.";

    /// <summary>The name as it will be kept, or null when it is none.</summary>
    public static string? TidyName(string? by) => FreeText.Clean(by) is { Length: > 0 and <= AlarmRequest.LongestBy } name ? name : null;

    /// <summary>Checks and carries out; the outcome says what to tell.</summary>
    public async Task<AlarmOutcome> CarryOutAsync(AlarmRequest request, CancellationToken cancel)
    {
        if (!request.TryMake(out var act, out var fault))
        {
            return new(AlarmOutcomeKind.Refused, fault);
        }

        try
        {
            return await actions.CarryOutAsync(act, cancel).WaitAsync(LongestWait, time, cancel) switch
            {
                null => new(AlarmOutcomeKind.NothingToDo, act.NothingDone()),
                { Status.IsInMemory: true } change => new(AlarmOutcomeKind.InMemory, $"{act.Done(change)} {HeldInMemory}"),
                var change => new(AlarmOutcomeKind.OnDisk, act.Done(change)),
            };
        }
        catch (Exception problem) when (problem is TimeoutException or StoreUnavailableException)
        {
            NotConfirmed(log, act.Kind.Word(), act.Alarm.Value, act.Vat.Value, problem.Message);
            return Unconfirmed;
        }
    }

    [LoggerMessage(EventId = 9104, Level = LogLevel.Error, Message = "Tried to {Act} alarm {Alarm} of {Vat}: the disk did not confirm it ({Reason}); it may still take effect.")]
    private static partial void NotConfirmed(ILogger logger, string act, string alarm, string vat, string reason);
}

/// <summary>How an act on an alarm ended.</summary>
public enum AlarmOutcomeKind
{
    OnDisk,

    /// <summary>It is true, but the disk does not take it: it is held in memory until the disk does.</summary>
    InMemory,

    /// <summary>What was asked is not whole: a name, a time or a reason is missing or cannot be one.</summary>
    Refused,

    /// <summary>There is no such alarm, or nothing of it is left to do.</summary>
    NothingToDo,

    /// <summary>The store did not confirm it in time; it may or may not become true.</summary>
    Unconfirmed,
}

/// <summary>What became of an act on an alarm.</summary>
/// <param name="Kind">In a word.</param>
/// <param name="Words">What was done, in sentences; or why it was not, as a clause.</param>
public readonly record struct AlarmOutcome(AlarmOutcomeKind Kind, string Words)
{
    /// <summary>What to tell.</summary>
    public string Sentence => Kind switch
    {
        AlarmOutcomeKind.OnDisk or AlarmOutcomeKind.InMemory => Words,
        AlarmOutcomeKind.NothingToDo => $"Nothing was done: {Words}.",
        _ => $"{Words.Capitalized()}.",
    };
}

/// <summary>Where people's acts on alarms are handed in. Thread safe.</summary>
public interface IAlarmActions
{
    /// <summary>
    /// Carries out one act. Completes when the change is on disk, or held in memory for a disk that does not take it (<see cref="AlarmStatus.IsInMemory"/>); null when there is no such alarm or nothing to do
    /// (<see cref="AlarmAct.NothingDone"/> says it in words).
    /// </summary>
    /// <exception cref="StoreUnavailableException">It was lost on the way to the disk.</exception>
    Task<AlarmChange?> CarryOutAsync(AlarmAct act, CancellationToken cancel);
}
