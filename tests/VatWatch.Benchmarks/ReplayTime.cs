using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace VatWatch.Benchmarks;

/// <summary>How many times faster than life a recorded day goes through the watch, start of the program counted; and the 300 nights that judge the watch, on two cores.</summary>
internal static class ReplayTime
{
    private const int Rounds = 5;
    private const double WantedTimesLife = 200_000;
    private const double LongestNights = 90;
    private const int Steps = 24 * 360;
    private static readonly DateTimeOffset Start = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    public static async Task MeasureAsync(Table table)
    {
        using var studio = new BenchStudio();
        studio.WriteRecorded();
        var log = Path.Combine(studio.Folder, "day.csv");
        await File.WriteAllTextAsync(log, Day());
        var seconds = Enumerable.Range(0, Rounds)
            .Select(_ => ChildProcess.TimeToEnd(Programs.Daemon, "replay", log, "--config", studio.Config, "--vat", "still") / 1000)
            .Order().ElementAt(Rounds / 2);
        var timesLife = TimeSpan.FromDays(1).TotalSeconds / seconds;
        table.Share(
            "replay of a day, three probes every 10 s, 200,000 times life",
            string.Create(CultureInfo.InvariantCulture, $"{seconds:0.00} s, {timesLife:N0} times"),
            WantedTimesLife / timesLife,
            1);
    }

    public static Task MeasureNightsAsync(Table table)
    {
        var program = Path.Combine(ChildProcess.Publish("tests/VatWatch.Nights"), "VatWatch.Nights");
        var began = Stopwatch.GetTimestamp();
        ChildProcess.TimeToEnd(program, TimeSpan.FromMinutes(10), "--seeds", "1-300");
        var seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        table.Share("300 seeds of the second physics' nights, seconds of 90", string.Create(CultureInfo.InvariantCulture, $"{seconds:0} s"), seconds / LongestNights, 1);
        return Task.CompletedTask;
    }

    /// <summary>A warm-up, a thermostat's swing, and a dip after eight hours, with the noise of probes.</summary>
    private static string Day()
    {
        var text = new StringBuilder("time,probe,value\n");
        var random = new Random(1);
        var (liquorC, orp, heats) = (24.0, -700.0, true);
        for (var step = 0; step < Steps; step++)
        {
            heats = liquorC < 43.5 || (heats && liquorC < 45);
            liquorC += ((heats ? 3.2 : 0) - 0.03 * (liquorC - 18)) / 360;
            orp += (2 - 0.1 * (orp + 690)) / 360;
            (liquorC, orp) = step == Steps / 3 ? (liquorC - 1.5, orp + 60) : (liquorC, orp);
            var at = Start.AddSeconds(10 * step).UtcDateTime;
            text.Append(CultureInfo.InvariantCulture, $"{at:yyyy-MM-ddTHH:mm:ss}Z,liquor,{liquorC + Noise(0.05):0.00}\n");
            text.Append(CultureInfo.InvariantCulture, $"{at:yyyy-MM-ddTHH:mm:ss}Z,ph,{10 - step / 36_000.0 + Noise(0.01):0.000}\n");
            text.Append(CultureInfo.InvariantCulture, $"{at:yyyy-MM-ddTHH:mm:ss}Z,orp,{orp + Noise(1):0.0}\n");
        }

        return text.ToString();

        double Noise(double width) => (random.NextDouble() - 0.5) * width;
    }
}
