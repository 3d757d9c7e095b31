using System.Diagnostics;
using VatWatch.Measurements;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline;

/// <summary>A wire that fails and a wire that is held, under the whole line: told, over, never a wrong value, and the other vat is watched on.</summary>
[Trait("Campaign", "faults")]
public sealed class I2cFaultsTests
{
    /// <summary>A transfer is given up after 2 s, which is noticed within twice that.</summary>
    private const double StuckTold = 5;
    private const double Told = 3;
    private const double Back = 5;

    [Theory]
    [InlineData("no acknowledgement", 121)]
    [InlineData("arbitration lost", 11)]
    [InlineData("clock held low, ended by the adapter", 110)]
    [InlineData("adapter gone", 19)]
    public async Task Errors_of_the_wire_are_told_are_over_and_harm_nobody_else(string name, int error)
    {
        var times = FaultFigures.Size(1, 15);
        await using var line = new LineRig();
        await line.StartAsync();
        await GoodAsync(line, "both are read", "wired", "simulated");
        line.Bench.Faults.Message = $"Error {error} performing I2C data transfer.";
        var (told, back) = (new List<double>(), new List<double>());
        for (var time = 0; time < times; time++)
        {
            // First now and then, as by a loose wire; then always.
            line.Bench.Faults.Probability = 0.3;
            await Task.Delay(400, TestContext.Current.CancellationToken);
            line.Bench.Faults.Probability = 1;
            told.Add(await TimeAsync(() => line.Newest("wired") is { Quality: Quality.Fault or Quality.Missing }));
            line.Bench.Faults.Probability = 0;
            back.Add(await TimeAsync(() => line.Newest("wired") is { Quality: Quality.Good }));
        }

        await HoldAsync(line, $"I2C: {name}", $"{times} times", told, Told, back);
    }

    [Fact]
    public async Task A_clock_that_is_held_for_ever_costs_its_own_vat_alone()
    {
        var times = FaultFigures.Size(1, 15);
        await using var line = new LineRig();
        await line.StartAsync();
        await GoodAsync(line, "both are read", "wired", "simulated");
        var threads = Process.GetCurrentProcess().Threads.Count;
        var (told, back) = (new List<double>(), new List<double>());
        for (var time = 0; time < times; time++)
        {
            line.Bench.Faults.Hang();
            told.Add(await TimeAsync(() => line.Newest("wired") is { Quality: Quality.Fault or Quality.Missing }));
            await Task.Delay(FaultFigures.Size(200, 3000), TestContext.Current.CancellationToken);
            line.Bench.Faults.LetGo();
            back.Add(await TimeAsync(() => line.Newest("wired") is { Quality: Quality.Good }));
        }

        FaultFigures.AtMost("I2C: bus stuck", $"{times} times", "threads more", Process.GetCurrentProcess().Threads.Count - threads, 8);
        await HoldAsync(line, "I2C: bus stuck", $"{times} times", told, StuckTold, back);
    }

    private static async Task HoldAsync(LineRig line, string campaign, string size, List<double> told, double toldWithin, List<double> back)
    {
        FaultFigures.AtMost(campaign, size, "told within", told.Max(), toldWithin, "s");
        FaultFigures.AtMost(campaign, size, "back within", back.Max(), Back, "s");
        await Eventually.TrueAsync(() => line.Bench.OpenHandles == 1, "one adapter is open");
        Assert.Equal(0, line.Bench.Faults.Stuck);
        await Eventually.TrueAsync(() => line.Kept("wired").Any(one => one.Quality != Quality.Good), "the faults are kept");
        FaultFigures.AtMost(campaign, size, "values that are not the chip's", line.Kept("wired").Count(one => one.Value is not null and not 45), 0);
        var other = line.Kept("simulated");
        Assert.All(other, one => Assert.Equal(Quality.Good, one.Quality));
        var gap = other.Zip(other.Skip(1), (a, b) => b.Stamp.Since(a.Stamp).TotalSeconds).Max();
        FaultFigures.AtMost(campaign, size, "longest gap of another bus at 5 Hz", gap, 3, "s");
        Assert.All(line.Supervisor.Health, stage => Assert.Equal(0, stage.Restarts));
    }

    private static Task GoodAsync(LineRig line, string what, params string[] vats) =>
        Eventually.TrueAsync(() => vats.All(vat => line.Newest(vat) is Measurement { Quality: Quality.Good }), what);

    private static async Task<double> TimeAsync(Func<bool> condition)
    {
        var watch = Stopwatch.StartNew();
        await Eventually.TrueAsync(condition, "the fault is told, or over");
        return watch.Elapsed.TotalSeconds;
    }
}
