using System.Globalization;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.Benchmarks;

/// <summary>Memory of the idle daemon against an empty ASP.NET Core application, its processor time with six probes, and its size where it is installed.</summary>
internal static class Footprint
{
    private const double LargestMegabytes = 150;
    private static readonly TimeSpan LongestPublish = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan Settle = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan Watch = TimeSpan.FromSeconds(40);

    public static async Task MeasureAsync(Table table)
    {
        using var studio = new BenchStudio();
        studio.WriteSix();
        using var empty = ChildProcess.Start(Programs.EmptyHost, "--urls", string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{FreePort.Next()}"));
        using var daemon = ChildProcess.Start(Programs.Daemon, "run", "--config", studio.Config);
        await Task.Delay(Settle);
        using var visitor = new HttpClient();
        using var page = await visitor.GetAsync(new Uri(studio.Page + "/"));
        using var events = await visitor.GetAsync(new Uri(studio.Page + "/api/events"), HttpCompletionOption.ResponseHeadersRead);
        await Task.Delay(Watch);
        table.Ratio("memory that the system cannot drop, six probes and one open page, empty application", daemon.AnonymousMebibytes, empty.AnonymousMebibytes, "MiB", 2);
        table.Note(
            "resident memory, mostly the program's own file",
            string.Create(CultureInfo.InvariantCulture, $"{daemon.ResidentMebibytes:0} MiB against {empty.ResidentMebibytes:0} MiB"),
            string.Create(CultureInfo.InvariantCulture, $"{daemon.ResidentMebibytes / empty.ResidentMebibytes:0.00}"));
    }

    public static async Task MeasureProcessorAsync(Table table)
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        using var studio = new BenchStudio();
        studio.WriteSixAsked(instrument.Port);
        using var daemon = ChildProcess.Start(Programs.Daemon, "run", "--config", studio.Config);
        await Task.Delay(Settle);
        var before = daemon.ProcessorSeconds;
        await Task.Delay(Watch);
        var used = daemon.ProcessorSeconds - before;
        var readings = 6 * Watch.TotalSeconds / 5;
        table.Note(
            "processor time for 1,000 readings, six probes on a serial line",
            string.Create(CultureInfo.InvariantCulture, $"{used:0.00} s for {readings:0}"),
            string.Create(CultureInfo.InvariantCulture, $"{used * 1000 / readings:0.0} s"));
        table.Share(
            "share of one core, six probes on a serial line every 5 s",
            string.Create(CultureInfo.InvariantCulture, $"{used:0.00} s in {Watch.TotalSeconds:0} s"),
            used / Watch.TotalSeconds,
            0.01);
    }
    /// <summary>With its own runtime, as it is packed.</summary>
    public static Task MeasureSizeAsync(Table table)
    {
        var folder = Path.Combine(ChildProcess.Root, "artifacts/benchmarks/installed");
        ChildProcess.TimeToEnd(Path.Combine(ChildProcess.Root, "config/package/publish"), LongestPublish, "linux-x64", folder);
        var megabytes = Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Sum(file => new FileInfo(file).Length) / 1e6;
        table.Share("installed, of 150 MB", string.Create(CultureInfo.InvariantCulture, $"{megabytes:0} MB"), megabytes / LargestMegabytes, 1);
        return Task.CompletedTask;
    }
}
