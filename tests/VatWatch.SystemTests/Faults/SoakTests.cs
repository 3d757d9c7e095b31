using System.Globalization;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>Long runs: what the daemon takes does not grow with the hours. <c>VATWATCH_SOAK_MINUTES</c> sets the length of the one in real time.</summary>
[Trait("Campaign", "faults")]
[Trait("Runs", "alone")]
public sealed class SoakTests
{
    /// <summary>Memory may be given back late; more than this in the long run is a leak. A short run is still warming up.</summary>
    private static readonly double MostMegabytes = FaultFigures.Size(30, 12);

    /// <summary>A pool's thread more or less is no leak.</summary>
    private const double MostThreads = 4;

    private const double MostFiles = 2;

    /// <summary>Two and a half times the bytes of a reading in the store's own table, for indexes, roll-ups and pages being filled.</summary>
    private const double MostBytes = 100;

    /// <summary>A database with nothing in it.</summary>
    private const long EmptyBytes = 64 * 1024;

    [Fact]
    public async Task Twelve_hours_of_a_simulated_vat_leave_memory_files_threads_and_log_as_they_were()
    {
        const double speed = 240;
        var hours = FaultFigures.Size(0.4, 12.0);
        using var studio = new Studio();
        studio.WriteConfig(
            $$"""
            "left-on": { "kind": "simulation", "speed": {{speed}}, "start": "20 °C", "ambient": "18 °C", "heater": "1500 W" },
            "held": { "kind": "simulation", "speed": {{speed}}, "start": "40 °C", "ambient": "18 °C", "heater": "1500 W", "thermostat": "45 °C" }
            """,
            $"{Studio.Vat("one", SimulatedProbes("one", "left-on"))}, {Studio.Vat("two", SimulatedProbes("two", "held"))}");
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        var record = new SoakRecord(daemon);
        var readings = 2 * hours * 3600 / SimulatedPeriod * SimulatedShare;
        await record.WatchAsync(FaultFigures.Size(TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(30)), FaultFigures.Size(TimeSpan.FromMilliseconds(100), TimeSpan.FromSeconds(1)), readings);
        FaultFigures.AtLeast("soak, simulated", "both vats", "readings taken", record.Readings, readings);
        await HoldAsync(daemon, record, "soak, simulated", string.Create(CultureInfo.InvariantCulture, $"{hours:0.#} h at {speed:0}"), logLines: 40 + 20 * hours);
        var (kept, other) = (await daemon.StopAndReadAsync("one"), await daemon.ReadAsync("two"));
        HoldDatabase(studio, "soak, simulated", kept.Count + other.Count);
    }

    [Fact]
    public async Task A_long_run_on_instruments_with_a_page_open_leaves_memory_files_threads_and_log_as_they_were()
    {
        var minutes = Environment.GetEnvironmentVariable("VATWATCH_SOAK_MINUTES") is { Length: > 0 } set
            ? double.Parse(set, CultureInfo.InvariantCulture)
            : FaultFigures.Size(0.1, 12.0);
        using var studio = new Studio();
        await using var text = await PtyInstrument.AskedAsync();
        await using var modbus = await PtyInstrument.ModbusAsync();
        await FaultProbes.FillAsync(modbus);
        studio.WriteConfig(
            $$"""
            "text": { "kind": "serial", "port": "{{text.Port}}", "baud": 9600 },
            "modbus": { "kind": "serial", "port": "{{modbus.Port}}", "baud": 9600 }
            """,
            $"{Studio.Vat("one", FaultProbes.Text("text", "1 s"))}, {Studio.Vat("two", FaultProbes.Modbus("modbus", "1 s"))}");
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        using var page = new OpenPage(studio.Url);
        var record = new SoakRecord(daemon);
        await record.WatchAsync(TimeSpan.FromMinutes(minutes), FaultFigures.Size(TimeSpan.FromMilliseconds(250), TimeSpan.FromSeconds(5)));
        Assert.True(page.Bytes > 0, "the open page was told nothing");
        await HoldAsync(daemon, record, "soak, real time", string.Create(CultureInfo.InvariantCulture, $"{minutes:0.#} min, 5 probes at 1 Hz"), logLines: 40 + minutes);
        var (kept, other) = (await daemon.StopAndReadAsync("one"), await daemon.ReadAsync("two"));
        HoldDatabase(studio, "soak, real time", kept.Count + other.Count);
        var longest = KeptReading.LongestGap(kept.Where(reading => reading.Probe == "one-t"));
        FaultFigures.AtMost("soak, real time", "one probe at 1 Hz", "longest gap", longest.TotalSeconds, 3, "s");
    }

    /// <summary>What the database holds once it is closed, without what an empty one has.</summary>
    private static void HoldDatabase(Studio studio, string campaign, int kept) =>
        FaultFigures.AtMost(campaign, $"{kept} readings", "kept in", Math.Max(0, new FileInfo(Path.Combine(studio.Data, "vatwatch.db")).Length - EmptyBytes) / (double)kept, MostBytes, "bytes each");

    private static async Task HoldAsync(WatchedDaemon daemon, SoakRecord record, string campaign, string size, double logLines)
    {
        TestContext.Current.TestOutputHelper?.WriteLine(record.ToString());
        FaultFigures.AtMost(campaign, size, "memory grew by", record.Growth(look => look.ResidentMegabytes), MostMegabytes, "MB");
        if (FaultFigures.IsFull)
        {
            FaultFigures.Hold(campaign, size, string.Create(CultureInfo.InvariantCulture, $"memory slope {record.SlopePerHour(look => look.ResidentMegabytes):0.0} MB an hour; {record}"), "told", true);
        }

        FaultFigures.AtMost(campaign, size, "open files grew by", record.Growth(look => look.Files), MostFiles);
        FaultFigures.AtMost(campaign, size, "threads grew by", record.Growth(look => look.Threads), MostThreads);
        FaultFigures.AtMost(campaign, size, "lines of log", daemon.Process.Output.Count(letter => letter == '\n'), logLines);
        FaultFigures.AtMost(campaign, size, "readings lost", await daemon.MetricAsync("vatwatch_readings_dropped_total") + await daemon.MetricAsync("vatwatch_store_measurements_dropped_total"), 0);
    }

    /// <summary>The temperature's period, s; the other two come half as often.</summary>
    private const int SimulatedPeriod = 2;
    private const double SimulatedShare = 1 + 0.5 + 0.5;

    private static string SimulatedProbes(string vat, string bus) => $$"""
        { "id": "{{vat}}-t", "measures": "temperature", "bus": "{{bus}}", "driver": "simulated", "every": "2 s" },
        { "id": "{{vat}}-ph", "measures": "ph", "bus": "{{bus}}", "driver": "simulated", "every": "4 s" },
        { "id": "{{vat}}-orp", "measures": "orp", "bus": "{{bus}}", "driver": "simulated", "every": "4 s" }
        """;
}
