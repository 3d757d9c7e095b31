using Microsoft.Extensions.Logging;
using VatWatch.Calibration;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Keeps the cache of calibrations as the store has them. The verb <c>calibrate</c> is another process that writes to the same store, so the
/// store is looked at again and again.
/// </summary>
internal sealed class CalibrationLoader(WatchStore store, CalibrationCache cache, ILogger<CalibrationLoader> log)
{
    private long? _newest;

    /// <summary>Takes up what is new in the store, with one small query when nothing is.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read; what is known stays in use.</exception>
    public void Load()
    {
        using var reader = store.OpenReader();
        var newest = CalibrationTable.NewestRow(reader);
        if (newest != _newest)
        {
            Fill(reader, known: _newest);
            _newest = newest;
        }
    }

    private void Fill(StoreReader reader, long? known)
    {
        foreach (var (stored, reason) in StoredCalibrations.Fill(cache, reader).Where(left => known is null || left.Stored.Id > known))
        {
            Log.CalibrationLeftOut(log, stored.Id, stored.Probe.Value, reason);
        }

        if (known is not null)
        {
            foreach (var stored in CalibrationTable.Newest(reader).Where(one => one.Id > known))
            {
                Log.CalibrationTaken(log, stored.Id, stored.Probe.Value, stored.Utc);
            }
        }
    }
}
