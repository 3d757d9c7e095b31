using VatWatch.Alarms.Daemon;
using VatWatch.Store;

namespace VatWatch.Pipeline.Assembly;

/// <summary>What the store says about itself; readings that were lost are told even when the disk is well again. Used by the watch stage only.</summary>
/// <param name="health">The store's health now.</param>
/// <param name="time">The wall's clock.</param>
internal sealed class StoreSignals(Func<StoreHealth> health, TimeProvider time)
{
    /// <summary>Readings lost within this time are told as a trouble that is still there, so that the alarm is seen.</summary>
    private static readonly TimeSpan Recent = TimeSpan.FromMinutes(10);

    private long _dropped;
    private long? _droppedAt;

    public IEnumerable<DaemonSignal> Signals()
    {
        var now = health();
        if (now.Dropped > _dropped)
        {
            _dropped = now.Dropped;
            _droppedAt = time.GetTimestamp();
        }

        yield return StoreFaultAlarm.Signal(now, _dropped, _droppedAt is { } at && time.GetElapsedTime(at) < Recent);
    }
}
