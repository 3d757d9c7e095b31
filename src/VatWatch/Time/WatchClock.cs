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

    /// <summary>Starts a run on <paramref name="provider"/>.</summary>
    public WatchClock(TimeProvider provider, bool trusted = true)
    {
        Provider = provider;
        _start = provider.GetTimestamp();
        _trusted = trusted;
    }

    /// <summary>The clock behind.</summary>
    public TimeProvider Provider { get; }

    /// <summary>Whether labels of this clock are to be believed; set by the clock watch.</summary>
    public bool Trusted
    {
        get => _trusted;
        set => _trusted = value;
    }

    /// <summary>This moment.</summary>
    public Stamp Now() => new(Provider.GetUtcNow(), Provider.GetElapsedTime(_start), _trusted);
}
