using VatWatch.Alarms;
using VatWatch.Pipeline;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web;

/// <summary>Hands acknowledgements from pages and programs to the alarm desk, with the same checks for both. Thread safe.</summary>
internal sealed class AlarmWindow(IAlarmDesk desk, TimeProvider time)
{
    /// <summary>Longest name taken.</summary>
    public const int LongestName = 60;

    /// <summary>What a name must be, for an error's sentence.</summary>
    public const string WantedName = "a name of 1 to 60 characters";

    /// <summary>A change is on disk within milliseconds; past this the disk is in trouble and the person should hear so.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(10);

    /// <summary>The name as it will be kept, or null when it is none: no control characters, no blank name.</summary>
    public static string? TidyName(string? by)
    {
        var name = by?.Trim();
        return name is { Length: > 0 and <= LongestName } && !name.Any(char.IsControl) ? name : null;
    }

    /// <summary>Acknowledges; the outcome says what to tell.</summary>
    public async Task<AcknowledgeOutcome> AcknowledgeAsync(string vat, string alarm, string by, string via, CancellationToken cancel)
    {
        using var deadline = new CancellationTokenSource(LongestWait, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, deadline.Token);
        try
        {
            var done = await desk.AcknowledgeAsync(new(new VatId(vat), new AlarmName(alarm), by, via), either.Token).WaitAsync(either.Token);
            return done ? AcknowledgeOutcome.OnDisk : AcknowledgeOutcome.NothingToAcknowledge;
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return AcknowledgeOutcome.TooSlow;
        }
    }
}
