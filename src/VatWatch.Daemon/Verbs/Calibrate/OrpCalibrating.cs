using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Electrodes;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary><c>calibrate orp</c>: from a reading on the command line, or guided.</summary>
internal sealed class OrpCalibrating(CommonAnswers answers, CheckSolution solution, string? reading, VerbConsole console)
{
    private const string ReadingWanted = "wanted such as '214 mV @ 25 °C'";

    public async Task<int> RunAsync(CancellationToken cancel)
    {
        var job = CalibrationJob.Find(answers, Quantity.Orp);
        var named = job.Vat.Definition.Orp?.Reference;
        if (!ReferenceElectrode.TryParse(named, out var reference))
        {
            var known = string.Join(", ", ReferenceElectrode.All.Select(electrode => $"\"{electrode.Name}\""));
            return console.Fail(ExitCode.BadConfiguration, $"orp.reference of vat '{job.Vat.Definition.Id}' is {(named is null ? "missing" : $"\"{named}\"")}; to calibrate wanted one of {known}.");
        }

        ElectrodeText? point = null;
        if (reading is not null && !(ElectrodeText.TryParse(reading, out point) && point.Label is null))
        {
            return console.Fail(ExitCode.WrongUsage, $"--reading is '{reading}'; {ReadingWanted}.");
        }

        if (point is null && console.Person is null)
        {
            return console.Fail(ExitCode.WrongUsage, $"no --reading was given and there is no terminal to guide at; {ReadingWanted}.");
        }

        await using var book = await CalibrationBook.OpenAsync(job.Store.Folder, job.Store.Watch.Store);
        var calibration = point is not null
            ? OrpCalibration.In(solution, reference, point.Millivolts, point.TemperatureC)
            : await GuidedAsync(job, book, reference, cancel);
        return await CalibrationFiling.FileAsync(job, book, calibration, console, cancel);
    }

    private async Task<OrpCalibration> GuidedAsync(CalibrationJob job, CalibrationBook book, ReferenceElectrode reference, CancellationToken cancel)
    {
        await using var live = LiveElectrode.Open(job, book.DaemonRuns);
        var guide = new SolutionGuide(job, live, console);
        var temperatureC = guide.AskTemperature($"Rinse the probe and put it with the thermometer into {solution.Name}", null)!.Value;
        var rest = await guide.AwaitRestAsync(temperatureC, cancel);
        return OrpCalibration.In(solution, reference, rest.Millivolts, temperatureC, rest.Settling);
    }
}
