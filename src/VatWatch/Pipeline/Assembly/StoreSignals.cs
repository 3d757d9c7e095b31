using VatWatch.Alarms;
using VatWatch.Store;

namespace VatWatch.Pipeline.Assembly;

/// <summary>What the store says about itself; readings that were lost are told even when the disk is well again. Used by the watch stage only.</summary>
/// <param name="health">The store's health now.</param>
/// <param name="time">The wall's clock.</param>
internal sealed class StoreSignals(Func<StoreHealth> health, TimeProvider time)
{
    /// <summary>Readings lost within this time are told as a trouble that is still there, so that the alarm is seen.</summary>
    private static readonly TimeSpan Recent = TimeSpan.FromMinutes(10);

    private static readonly AlarmName StoreFault = new(AlarmNames.StoreFault);

    private long _dropped;
    private long? _droppedAt;

    /// <summary>One signal.</summary>
    public IEnumerable<DaemonSignal> Signals()
    {
        var now = health();
        if (now.Dropped > _dropped)
        {
            _dropped = now.Dropped;
            _droppedAt = time.GetTimestamp();
        }

        var lost = _dropped > 0 ? $" {_dropped} were lost since the start, because the memory for those that wait was full." : "";
        var lostLately = _droppedAt is { } at && time.GetElapsedTime(at) < Recent;
        yield return now switch
        {
            { Ok: false } => new(StoreFault, true, $"Readings cannot be written to the disk: {now.Reason}. {now.Buffered} wait in memory.{lost}"),
            { SetAside: { } aside } => new(StoreFault, true, aside),
            { Unreadable: { } rows } => new(StoreFault, true, rows),
            _ when lostLately => new(StoreFault, true, $"Readings are written to the disk again, but not all:{lost}"),
            _ => new(StoreFault, false, $"Readings are written to the disk again.{lost}"),
        };
    }
}
