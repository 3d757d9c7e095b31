namespace VatWatch.Time;

/// <summary>
/// Tells that nothing was looked at for a while: the program was halted, or the computer slept or gave it no time. For one thread.
/// </summary>
/// <param name="uptime">A clock that goes on while the computer sleeps, such as <see cref="UptimeProvider"/>.</param>
internal sealed class StandstillWatch(TimeProvider uptime)
{
    /// <summary>From here on it is told; a look is wanted every second.</summary>
    public static readonly TimeSpan Shortest = TimeSpan.FromSeconds(10);

    private long _looked = uptime.GetTimestamp();

    /// <summary>Looks; how long nobody had looked, or null when that is nothing to speak of.</summary>
    public TimeSpan? Look()
    {
        var since = uptime.GetElapsedTime(_looked);
        _looked = uptime.GetTimestamp();
        return since >= Shortest ? since : null;
    }
}
