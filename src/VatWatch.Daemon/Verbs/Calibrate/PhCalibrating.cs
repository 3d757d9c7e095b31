using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary><c>calibrate ph</c>: from points on the command line, or guided.</summary>
internal sealed class PhCalibrating(CommonAnswers answers, IReadOnlyList<string> points, BufferChoice choice, bool pieces, VerbConsole console)
{
    private const string PointWanted = "wanted such as '7.00: 5.0 mV @ 25 °C'";

    public async Task<int> RunAsync(CancellationToken cancel)
    {
        var job = CalibrationJob.Find(answers, Quantity.Ph);
        if (points.Count > PhCalibration.MostPoints)
        {
            return console.Fail(ExitCode.WrongUsage, $"--point was given {points.Count} times; wanted one to {PhCalibration.MostPoints}.");
        }

        if (points.Count == 0 && console.Person is null)
        {
            return console.Fail(ExitCode.WrongUsage, $"no --point was given and there is no terminal to guide at; {PointWanted}.");
        }

        await using var book = await CalibrationBook.OpenAsync(job.Store.Folder, job.Store.Watch.Store);
        var before = book.Calibrations.InUse(job.Probe.Id)?.Calibration as PhCalibration;
        if (points.Count > 0)
        {
            return await FileAsync(job, book, [.. points.Select(text => Read(text, before))], before, cancel);
        }

        await using var live = LiveElectrode.Open(job, book.DaemonRuns);
        return await FileAsync(job, book, await new PhGuide(job, live, choice, before, console).TakeAsync(cancel), before, cancel);
    }

    private async Task<int> FileAsync(CalibrationJob job, CalibrationBook book, IReadOnlyList<PhCalibrationPoint> taken, PhCalibration? before, CancellationToken cancel)
    {
        if (pieces && taken.Count < 2)
        {
            return console.Fail(ExitCode.WrongUsage, "--pieces was given with one buffer; wanted two or three.");
        }

        try
        {
            var calibration = PhCalibration.Through(taken, pieces ? PhFitKind.Pieces : PhFitKind.Line, before);
            return await CalibrationFiling.FileAsync(job, book, calibration, console, cancel);
        }
        catch (ArgumentOutOfRangeException e)
        {
            return console.Fail(ExitCode.Failure, $"these buffers make no calibration of probe '{job.Probe.Id}': {BufferFault.Sentence(e)} Nothing was stored.");
        }
    }

    private PhCalibrationPoint Read(string text, PhCalibration? before)
    {
        var wanted = PointWanted;
        return ElectrodeText.TryParse(text, out var point) && BufferOf(point, before, out wanted) is { } buffer
            ? PhCalibrationPoint.In(buffer, point.Millivolts, point.TemperatureC)
            : throw new VerbEndedException(ExitCode.WrongUsage, $"--point is '{text}'; {wanted}.");
    }

    private PhBuffer? BufferOf(ElectrodeText point, PhCalibration? before, out string wanted)
    {
        wanted = point.Label is null
            ? choice.IsBottle
                ? "with --set bottle the value on the bottle is wanted before a colon"
                : $"no buffer of the {choice.Word} set ({choice.Values}) is clearly the one with that voltage; wanted its value before a colon"
            : $"the {choice.Word} set has {choice.Values}; wanted one of these, or --set bottle for the value on the bottle";
        return point.Label is { } label
            ? choice.Named(label)
            : choice.Recognised(point.Millivolts, point.TemperatureC, before?.Line ?? PhLine.Ideal(point.TemperatureC));
    }
}
