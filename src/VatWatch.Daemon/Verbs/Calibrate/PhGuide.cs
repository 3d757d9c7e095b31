using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Guides a person through one to three buffers.</summary>
internal sealed class PhGuide(CalibrationJob job, ILiveElectrode live, BufferChoice choice, PhCalibration? before, VerbConsole console)
{
    private readonly SolutionGuide _guide = new(job, live, console);

    public async Task<IReadOnlyList<PhCalibrationPoint>> TakeAsync(CancellationToken cancel)
    {
        console.Out.WriteLine(choice.IsBottle
            ? $"Calibrating probe {job.Probe.Id} by the values on the bottles."
            : $"Calibrating probe {job.Probe.Id} with buffers of the {choice.Word} set: {choice.Values}.");
        var points = new List<PhCalibrationPoint>();
        while (points.Count < PhCalibration.MostPoints
            && _guide.AskTemperature(
                $"Buffer {points.Count + 1}: rinse the electrode and put it with the thermometer into the buffer",
                points.Count > 0 ? points[^1].Point.TemperatureC : null,
                mayEnd: points.Count > 0) is { } temperatureC)
        {
            var rest = await _guide.AwaitRestAsync(temperatureC, cancel);
            var point = PhCalibrationPoint.In(BufferFor(rest.Millivolts, temperatureC), rest.Millivolts, temperatureC, rest.Settling);
            console.Out.WriteLine(job.Store.Watch.Units.Words($"  {point.Buffer}, pH {point.Point.BufferPh:0.00#} at {temperatureC:0.#} °C."));
            points.Add(point);
        }

        return points;
    }

    private PhBuffer BufferFor(double millivolts, double temperatureC)
    {
        if (choice.Recognised(millivolts, temperatureC, before?.Line ?? PhLine.Ideal(temperatureC)) is { } recognised)
        {
            return recognised;
        }

        while (true)
        {
            var line = _guide.Ask(choice.IsBottle ? "pH on the bottle for that temperature: " : $"Which buffer is it, {choice.Values}? ");
            if (ElectrodeText.TryLabel(line, out var label) && choice.Named(label) is { } named)
            {
                return named;
            }

            console.Out.WriteLine($"'{line}' is no buffer; wanted {(choice.IsBottle ? "a pH from 0 to 14" : $"one of {choice.Values}")}.");
        }
    }
}
