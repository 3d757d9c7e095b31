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
        var (found, code) = CalibrationJob.Find(answers, Quantity.Ph, console);
        if (found is not { } job)
        {
            return code;
        }

        if (points.Count > PhCalibration.MostPoints)
        {
            return console.Fail(ExitCode.WrongUsage, $"--point was given {points.Count} times; wanted one to {PhCalibration.MostPoints}.");
        }

        if (points.Count == 0 && console.Person is null)
        {
            return console.Fail(ExitCode.WrongUsage, $"no --point was given and there is no terminal to guide at; {PointWanted}.");
        }

        await using var book = await CalibrationBook.OpenAsync(job.Folder, job.Configuration.Watch.Store);
        var before = book.Shelf.InUse(job.Probe.Id)?.Calibration as PhCalibration;
        IReadOnlyList<PhCalibrationPoint>? taken;
        if (points.Count == 0)
        {
            await using var live = LiveElectrode.Open(job, book.DaemonRuns);
            taken = await new PhGuide(job, live, choice, before, console).TakeAsync(cancel);
        }
        else
        {
            taken = ReadPoints(before);
        }

        return taken is null ? ExitCode.WrongUsage : await FileAsync(job, book, taken, before, cancel);
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

    private List<PhCalibrationPoint>? ReadPoints(PhCalibration? before)
    {
        var read = new List<PhCalibrationPoint>();
        foreach (var text in points)
        {
            if (!ElectrodeText.TryParse(text, out var point))
            {
                console.Fail(ExitCode.WrongUsage, $"--point is '{text}'; {PointWanted}.");
                return null;
            }

            if (BufferOf(point, before, out var wanted) is not { } buffer)
            {
                console.Fail(ExitCode.WrongUsage, $"--point is '{text}'; {wanted}.");
                return null;
            }

            read.Add(PhCalibrationPoint.In(buffer, point.Millivolts, point.TemperatureC));
        }

        return read;
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
