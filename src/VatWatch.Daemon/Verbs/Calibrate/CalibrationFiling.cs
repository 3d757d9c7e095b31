using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>The end of every calibration: judge it, keep it or refuse it, and say what came of it.</summary>
internal static class CalibrationFiling
{
    /// <summary>Judges, stores and prints; gives the exit code.</summary>
    public static async Task<int> FileAsync(CalibrationJob job, CalibrationBook book, ElectrodeCalibration calibration, VerbConsole console, CancellationToken cancel)
    {
        var now = TimeProvider.System.GetUtcNow();
        var outcome = await CalibrationOutcome.FileAsync(
            job.Probe, calibration, book.Calibrations.InUse(job.Probe.Id)?.Calibration, job.Limits, job.Keep, now, () => book.AddAsync(job.Probe.Id, now, calibration, cancel));
        if (job.Json)
        {
            CalibrationPrint.Json(outcome, console.Out);
        }
        else
        {
            CalibrationPrint.Text(outcome, job.Store.Watch.Zone, job.Store.Watch.Units, console.Out);
        }

        return outcome.Refusal is { } refusal ? console.Fail(ExitCode.Failure, $"{refusal} with --keep.") : ExitCode.Success;
    }
}
