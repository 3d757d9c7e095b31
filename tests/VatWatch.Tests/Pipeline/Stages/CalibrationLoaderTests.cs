using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms.Daemon;
using VatWatch.Alarms.Rules;
using VatWatch.Calibration;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Stages;
using VatWatch.Store;
using VatWatch.Store.Disk;
using VatWatch.Tests.Calibration;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline.Stages;

/// <summary>From another process's calibration to the pH of a running watch.</summary>
public sealed class CalibrationLoaderTests
{
    [Fact]
    public async Task A_calibration_added_beside_changes_the_readings_after_it_and_none_before()
    {
        await using var rig = StoreRig.Start();
        var calibrations = new CalibrationCache();
        var loader = new CalibrationLoader(rig.Store, calibrations, NullLogger<CalibrationLoader>.Instance);
        var watcher = new VatWatcher(Plan(), DisplayUnits.Si, calibrations);
        loader.Load();
        watcher.Accept(Electrodes.Reading(Electrodes.Liquor, 50, 0));
        var (before, _) = watcher.Accept(Electrodes.Reading(Electrodes.Ph, -205, 1));
        rig.Store.Enqueue(before);

        var row = StoreBeside.Write(rig.Folder, transaction =>
            CalibrationTable.Append(transaction, Electrodes.Ph.Id, Electrodes.Noon, CalibrationDocument.Write(Electrodes.TwoBuffers)));
        loader.Load();
        var (after, _) = watcher.Accept(Electrodes.Reading(Electrodes.Ph, -205, 2));
        await rig.OfferAsync(after);

        Assert.Equal((Quality.Suspect, null), (before.Quality, before.Calibration));
        Assert.Equal((Quality.Good, row), (after.Quality, after.Calibration!.Value));
        Assert.Equal(10.3326, after.Value!.Value, 4);
        Assert.Equal([null, row], rig.All().Select(one => one.Calibration));
    }

    [Fact]
    public async Task One_that_is_not_understood_is_left_out_and_the_one_before_stays_in_use()
    {
        await using var rig = StoreRig.Start();
        var calibrations = new CalibrationCache();
        await rig.WriteAsync(transaction =>
        {
            CalibrationTable.Append(transaction, Electrodes.Ph.Id, Electrodes.Noon, CalibrationDocument.Write(Electrodes.TwoBuffers));
            return CalibrationTable.Append(transaction, Electrodes.Ph.Id, Electrodes.Noon, "{\"version\":9}");
        });
        var left = rig.Read(reader => StoredCalibrations.Fill(calibrations, reader));
        Assert.Contains("version 9", Assert.Single(left).Reason, StringComparison.Ordinal);
        Assert.Equal(1, calibrations.InUse(Electrodes.Ph.Id)!.Id);
    }

    [Fact]
    public async Task A_store_that_cannot_be_read_leaves_what_is_known_in_use()
    {
        await using var rig = StoreRig.Start();
        var calibrations = new CalibrationCache();
        await rig.WriteAsync(work => CalibrationTable.Append(work, Electrodes.Ph.Id, Electrodes.Noon, CalibrationDocument.Write(Electrodes.TwoBuffers)));
        var loader = new CalibrationLoader(rig.Store, calibrations, NullLogger<CalibrationLoader>.Instance);
        loader.Load();
        await rig.SqlAsync("ALTER TABLE calibration RENAME TO elsewhere");
        Assert.Throws<StoreUnavailableException>(loader.Load);
        Assert.Equal(1, calibrations.InUse(Electrodes.Ph.Id)!.Id);
        await rig.SqlAsync("ALTER TABLE elsewhere RENAME TO calibration");
    }

    [Fact]
    public void The_watch_signals_which_calibrations_are_due()
    {
        var calibrations = Electrodes.Calibrations((1, Electrodes.Orp, Electrodes.InZoBell));
        var signals = new CalibrationSignals([Plan()], calibrations, new StillClock(Electrodes.Noon.AddDays(2)), () => true).Signals();
        Assert.Equal(
            [("calibration-due.glass", true), ("calibration-due.platinum", false)],
            signals.Select(signal => (signal.Alarm.Value, signal.Active!.Value)));
        var board = new DaemonAlarmBoard();
        Assert.NotEmpty(board.Signal(signals[0], Electrodes.At(0)).Concat(board.Signal(signals[0], Electrodes.At(3600))));
    }

    private static VatPlan Plan() => new(Electrodes.Vat, [], AlarmSettings.Default);

    private sealed class StillClock(DateTimeOffset now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => now;
    }
}
