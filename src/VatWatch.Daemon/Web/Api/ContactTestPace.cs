namespace VatWatch.Daemon.Web.Api;

/// <summary>Lets a test message through at most every 10 s, so that a page cannot be made to flood a mailbox. Thread safe.</summary>
internal sealed class ContactTestPace(TimeProvider time)
{
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(10);
    private readonly Lock _lock = new();
    private long? _last;

    /// <summary>True when one may be sent now.</summary>
    public bool TryTake()
    {
        lock (_lock)
        {
            if (_last is { } last && time.GetElapsedTime(last) < Between)
            {
                return false;
            }

            _last = time.GetTimestamp();
            return true;
        }
    }
}
