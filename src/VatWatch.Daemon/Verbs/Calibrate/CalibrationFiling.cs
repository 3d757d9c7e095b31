using VatWatch.Calibration;
using VatWatch.Science.Electrodes;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>The end of every calibration: judge it, keep it or refuse it, and say what came of it.</summary>
internal static class CalibrationFiling
{
    /// <summary>Judges, stores and prints; gives the exit code.</summary>
    public static async Task<int> FileAsync(CalibrationJob job, CalibrationBook book, ElectrodeCalibration calibration, VerbConsole console, CancellationToken cancel)
    {
        var before = book.Shelf.InUse(job.Probe.Id);
        var health = CalibrationHealth.Of(calibration, before?.Calibration, job.Limits);
        var now = TimeProvider.System.GetUtcNow();
        var isRefused = health.Verdict == ElectrodeVerdict.Unfit && !job.Keep;
        long? row = isRefused ? null : await book.AddAsync(job.Probe.Id, now, calibration, cancel);
        var outcome = new CalibrationOutcome(job.Probe, calibration, health, now, row);
        if (job.Json)
        {
            CalibrationPrint.Json(outcome, console.Out);
        }
        else
        {
            CalibrationPrint.Text(outcome, console.Out);
        }

        return isRefused
            ? console.Fail(ExitCode.Failure, $"the calibration of probe '{job.Probe.Id}' is outside its limits and was not stored: {health.Troubles.First().Sentence} Clean the electrode and use fresh solutions, or store it all the same with --keep.")
            : ExitCode.Success;
    }
}
