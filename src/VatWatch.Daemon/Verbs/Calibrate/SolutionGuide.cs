using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Guides a person through one solution: asks for its temperature, shows the live value, waits until it rests.</summary>
internal sealed class SolutionGuide(CalibrationJob job, ILiveElectrode live, VerbConsole console)
{
    /// <summary>An electrode that has not come to rest by then is dry, broken or in a solution that changes.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);

    private readonly TimeSpan _window = SteadyWatch.WindowOf(job.Probe.Every);

    /// <summary>Words that end the asking.</summary>
    public const string End = "end";

    /// <summary>Asks for a solution's temperature until one is given.</summary>
    /// <param name="task">What to do first.</param>
    /// <param name="usual">Taken for an empty line; null when one must be written.</param>
    /// <param name="mayEnd">Whether there may be no further solution.</param>
    /// <returns>°C; null when there is no further solution.</returns>
    public double? AskTemperature(string task, double? usual, bool mayEnd = false)
    {
        var suffix = (usual is { } known ? $"; Enter for {job.Store.Watch.Units.Temperature(known)}" : "") + (mayEnd ? $"; '{End}' when there is no other" : "");
        while (true)
        {
            var line = Ask($"{task}. Its temperature, such as {job.Store.Watch.Units.Temperature(25)}{suffix}: ");
            if (line.Length == 0 && usual is not null)
            {
                return usual;
            }

            if (mayEnd && line.Equals(End, StringComparison.OrdinalIgnoreCase))
            {
                return null;
            }

            if (ElectrodeText.TryTemperature(line, out var temperatureC))
            {
                return temperatureC;
            }

            console.Out.WriteLine($"'{line}' is no temperature of a solution; wanted a number and its unit, such as 25 °C or 77 °F.");
        }
    }

    /// <summary>A line from the person.</summary>
    public string Ask(string question)
    {
        console.Out.Write(question);
        console.Out.Flush();
        return console.Person!.ReadLine()?.Trim()
            ?? throw new GuideEndedException($"the calibration of probe '{job.Probe.Id}' was not finished; nothing was stored.");
    }

    /// <summary>Shows the live value in a solution of this temperature, °C, until it has come to rest.</summary>
    /// <exception cref="GuideEndedException">It did not, or the probe was lost; a sentence.</exception>
    public async Task<(double Millivolts, TimeSpan Settling)> AwaitRestAsync(double solutionC, CancellationToken cancel)
    {
        var (steady, begun) = (new SteadyWatch(_window, SteadyWatch.ToleranceOf(job.Probe.Quantity)), (TimeSpan?)null);
        var lost = "it gives no more readings";
        await foreach (var reading in live.FollowAsync(solutionC, cancel))
        {
            begun ??= reading.Stamp.Monotonic;
            if (reading.Stamp.Monotonic - begun > Patience)
            {
                lost = $"it has not come to rest within {DisplayUnits.Duration(Patience)}";
                break;
            }

            if (reading.Sample.Value is not { } delivered)
            {
                lost = reading.Sample.Reason ?? lost;
                Show($"no value: {lost}");
                continue;
            }

            var millivolts = job.Probe.Unit.ToCanonical(delivered);
            steady.Add(reading.Stamp.Monotonic, millivolts);
            if (steady.IsSteady)
            {
                Show($"{steady.Millivolts:0.0;−0.0} mV, steady; it took {DisplayUnits.Duration(steady.Settling)}");
                console.Out.WriteLine();
                return (Math.Round(steady.Millivolts, 2), steady.Settling);
            }

            Show($"{millivolts:0.0;−0.0} mV{(steady.TrendMillivolts is { } trend ? $", moving {trend:+0.0;−0.0;0.0} mV in {DisplayUnits.Duration(_window)}" : "")}");
        }

        console.Out.WriteLine();
        throw new GuideEndedException($"probe '{job.Probe.Id}' cannot be calibrated: {lost}; nothing was stored.");
    }

    private void Show(string text)
    {
        console.Out.Write($"\r  {text,-70}");
        console.Out.Flush();
    }
}

/// <summary>A guided calibration that came to nothing; the message is a sentence for the person.</summary>
internal sealed class GuideEndedException(string sentence) : Exception(sentence);
