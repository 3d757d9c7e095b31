using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms.Journal;
using VatWatch.Calibration;
using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Testing.Nights;

/// <summary>Writes nights into a store as the daemon would have: readings, alarms, the log book and the calibrations in between.</summary>
public static class DemoNightStore
{
    private const int Portion = 20_000;

    /// <summary>Writes the nights into the store of a folder.</summary>
    /// <returns>The session of each night.</returns>
    public static async Task<IReadOnlyList<SessionId>> WriteAsync(string folder, IReadOnlyList<(DemoNight Night, DemoNightRun Run)> nights)
    {
        await using var store = WatchStore.Open(folder, new StoreOptions { KeepReadings = TimeSpan.FromDays(3650) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        using var stop = new CancellationTokenSource();
        var running = store.RunAsync(stop.Token);
        var sessions = new List<SessionId>();
        foreach (var (night, run) in nights)
        {
            await store.WriteAsync(work => Calibrate(work, night.Evening - TimeSpan.FromHours(1), sessions.Count), CancellationToken.None);
            foreach (var portion in run.Measurements.Chunk(Portion))
            {
                foreach (var measurement in portion)
                {
                    store.Enqueue(measurement);
                }

                await store.FlushAsync(CancellationToken.None);
            }

            sessions.Add(await store.WriteAsync(work => LogBook(work, night, run), CancellationToken.None));
        }

        await stop.CancelAsync();
        await running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        return sessions;
    }

    private static SessionId LogBook(StoreTransaction work, DemoNight night, DemoNightRun run)
    {
        Stamp At(TimeSpan at) => new(night.Evening + at, at, true);

        foreach (var change in run.Changes)
        {
            AlarmJournal.Append(work, change);
        }

        var session = SessionTable.Start(work, DemoNightRun.Vat.Id, DateOnly.FromDateTime((night.Evening + night.SessionAt).UtcDateTime), At(night.SessionAt), DemoNight.Dyer, night.Details);
        foreach (var (at, draft) in night.Told)
        {
            EntryTable.Write(work, draft, at >= night.SessionAt ? session.Id : null, At(at));
        }

        SessionTable.End(work, DemoNightRun.Vat.Id, session.Id, night.Evening + night.SessionEnd);
        return session.Id;
    }

    // A glass electrode that ages by a percent and a half a week.
    private static long Calibrate(StoreTransaction work, DateTimeOffset at, int week)
    {
        var slope = -Nernst.SlopeMillivoltsPerPh(25) * (0.985 - 0.015 * week);
        var offset = 4 + 3 * week;
        var calibration = PhCalibration.Through(
            [
                new PhCalibrationPoint("technical 7.00", new PhPoint(offset, 7, 25)),
                new PhCalibrationPoint("technical 10.01", new PhPoint(offset + slope * 3.01, 10.01, 25)),
            ],
            PhFitKind.Line,
            null);
        return CalibrationTable.Append(work, new ProbeId("liquor-ph"), at, CalibrationDocument.Write(calibration));
    }
}
