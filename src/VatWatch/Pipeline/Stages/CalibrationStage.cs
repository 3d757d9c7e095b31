using Microsoft.Extensions.Logging;
using VatWatch.Calibration;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Keeps the shelf of calibrations as the store has them. The verb <c>calibrate</c> is another process that writes to the same store, so the
/// store is looked at again and again.
/// </summary>
internal sealed class CalibrationStage(WatchStore store, CalibrationCache shelf, TimeProvider time, ILogger<CalibrationStage> log) : IStage
{
    /// <summary>A dyer who has just calibrated looks at the page within this time; looking costs one small query.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromSeconds(15);

    private long? _newest;
    private bool _isUnread;

    public string Name => "calibrations";

    /// <summary>Long, because it waits for the disk.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(5), time);

    public async Task RunAsync(CancellationToken cancel)
    {
        using var timer = new PeriodicTimer(Period, time);
        while (await timer.WaitForNextTickAsync(cancel))
        {
            Pulse.Tick();
            Evaluate();
        }
    }

    /// <summary>Takes up what is new in the store; keeps what is known when the store cannot be read.</summary>
    public void Evaluate()
    {
        try
        {
            using var reader = store.OpenReader();
            var newest = CalibrationTable.NewestRow(reader);
            if (newest != _newest)
            {
                Fill(reader, known: _newest);
                _newest = newest;
            }

            _isUnread = false;
        }
        catch (StoreUnavailableException caught)
        {
            if (!_isUnread)
            {
                Log.CalibrationsUnread(log, caught.Message);
            }

            _isUnread = true;
        }
    }

    private void Fill(StoreReader reader, long? known)
    {
        foreach (var (stored, reason) in StoredCalibrations.Fill(shelf, reader).Where(left => known is null || left.Stored.Id > known))
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
