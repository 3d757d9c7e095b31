namespace VatWatch.Time;

/// <summary>Stamps moments for one run of the daemon. Thread safe.</summary>
/// <remarks>
/// <see cref="Provider"/> is the clock of the vat: with a fast simulation it runs ahead of the wall. Waits for disks,
/// networks and ports use <see cref="TimeProvider.System"/> (or a test's clock) instead.
/// </remarks>
public sealed class WatchClock
{
    private readonly long _start;
    private volatile bool _trusted;

    /// <summary>Starts a run on <paramref name="provider"/>; without a <paramref name="zone"/> the site has the provider's.</summary>
    public WatchClock(TimeProvider provider, bool trusted = true, TimeZoneInfo? zone = null)
    {
        Provider = provider;
        Zone = zone ?? provider.LocalTimeZone;
        _start = provider.GetTimestamp();
        _trusted = trusted;
    }

    /// <summary>The clock behind.</summary>
    public TimeProvider Provider { get; }

    public TimeZoneInfo Zone { get; }

    /// <summary>How long the computer has been up, its sleep included.</summary>
    public TimeProvider Uptime { get; init; } = new UptimeProvider();

    /// <summary>Whether labels of this clock are to be believed; set by the clock watch.</summary>
    public bool Trusted
    {
        get => _trusted;
        set => _trusted = value;
    }

    /// <summary>No label before this is believed, whatever <see cref="Trusted"/> says; set once, before the first reading.</summary>
    public DateTimeOffset Earliest { get; set; } = DateTimeOffset.MinValue;

    /// <summary>This moment.</summary>
    public Stamp Now()
    {
        var utc = Provider.GetUtcNow();
        return new(utc, Provider.GetElapsedTime(_start), _trusted && utc >= Earliest);
    }
}
