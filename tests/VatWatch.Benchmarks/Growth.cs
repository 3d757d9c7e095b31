using System.Diagnostics;
using System.Globalization;
using VatWatch.Store;

namespace VatWatch.Benchmarks;

/// <summary>How memory, processor time, start and what is written grow from 4 to 4,000 simulated probes, read every five seconds.</summary>
internal static class Growth
{
    private const double Every = 5;

    /// <summary>Linear within a fifth: ten times the probes may cost twelve times as much.</summary>
    private const double MostCost = 1.2;
    private static readonly int[] Sizes = [4, 40, 400, 4000];
    private static readonly TimeSpan Settle = TimeSpan.FromSeconds(25);
    private static readonly TimeSpan Watch = TimeSpan.FromSeconds(40);

    public static async Task MeasureAsync(Table table)
    {
        var costs = new List<double>();
        foreach (var probes in Sizes)
        {
            costs.Add(await MeasureAsync(table, probes));
        }

        table.Share(
            "processor time of a reading, ten times the probes against one time, at worst",
            string.Join(", ", costs.Select(cost => string.Create(CultureInfo.InvariantCulture, $"{1000 * cost:0.00}"))) + " ms",
            costs.Zip(costs.Skip(1), (few, many) => many / few).Max(),
            MostCost);
    }

    /// <summary>Processor time of one reading, s.</summary>
    private static async Task<double> MeasureAsync(Table table, int probes)
    {
        using var studio = new BenchStudio();
        studio.WriteMany(probes);
        var program = Programs.Daemon;
        var began = Stopwatch.GetTimestamp();
        using var daemon = ChildProcess.Start(program, "run", "--config", studio.Config);
        var start = await StartTime.UntilStoredAsync(studio.Data, began);
        await Task.Delay(Settle);
        var (processor, written, from) = (daemon.ProcessorSeconds, daemon.WrittenBytes, DateTimeOffset.UtcNow);
        await Task.Delay(Watch);
        var (used, bytes, to) = (daemon.ProcessorSeconds - processor, daemon.WrittenBytes - written, DateTimeOffset.UtcNow);

        // What was read last is on the disk a commit interval later.
        await Task.Delay(TimeSpan.FromSeconds(11));
        using var reader = StoreReader.OpenFolder(studio.Data);
        var readings = reader.Rows(from, to).Count();
        var wanted = probes * (to - from).TotalSeconds / Every;
        table.Note(
            string.Create(CultureInfo.InvariantCulture, $"{probes} probes every 5 s"),
            string.Create(
                CultureInfo.InvariantCulture,
                $"start {start:0} ms, {daemon.ResidentMebibytes:0} MiB, {100 * used / Watch.TotalSeconds:0.0} % of a core, {1000 * used * 1000 / readings:0} ms per 1,000 readings, {bytes / (double)readings:0} B to the disk each"),
            string.Create(CultureInfo.InvariantCulture, $"{readings / wanted:0.00} kept"));
        return used / readings;
    }
}
