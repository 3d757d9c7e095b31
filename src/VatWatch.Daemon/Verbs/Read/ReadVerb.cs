using System.CommandLine;
using System.Text.Json;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;
using VatWatch.Readings;

namespace VatWatch.Daemon.Verbs.Read;

/// <summary><c>vatwatch read</c>: one reading from every probe, for the bench.</summary>
internal static class ReadVerb
{
    public static Command Create(VerbConsole console)
    {
        var store = new ConfiguredStoreOptions(console);
        var json = CommonOptions.Json();
        var probe = new Option<string?>("--probe") { Description = "Read this probe alone, with the temperatures of its vat.", HelpName = "ID" };
        var talk = new Option<bool>("--talk") { Description = "Show the bytes both ways; needs --probe." };
        var command = new Command("read", "Take one reading from every probe and print raw value, calibrated value, quality and reason.") { store, json, probe, talk };
        command.Validators.Add(result =>
        {
            if (result.GetValue(talk) && result.GetValue(probe) is null)
            {
                result.AddError("--talk shows one probe; wanted --probe ID beside it.");
            }
        });
        command.SetAction((parsed, cancel) => RunAsync(
            new(store.Of(parsed), parsed.GetValue(json), parsed.GetValue(probe), parsed.GetValue(talk)), console, cancel));
        return command;
    }

    private static async Task<int> RunAsync(Asked asked, VerbConsole console, CancellationToken cancel)
    {
        var watch = asked.Store.Watch;
        var vats = watch.Vats.Select(vat => vat.Definition).ToList();
        var one = vats.SelectMany(vat => vat.Probes).FirstOrDefault(probe => probe.Id.Value == asked.Probe);
        if (asked.Probe is not null && one is null)
        {
            console.Error.WriteLine($"There is no probe '{asked.Probe}'; wanted one of {string.Join(", ", vats.SelectMany(vat => vat.Probes).Select(probe => probe.Id))}.");
            return ExitCode.WrongUsage;
        }

        var clock = new WatchClock(TimeProvider.System);
        var known = new KnownTemperatures(clock);
        var buses = BusWithProbes.Build(watch, clock, known);
        IReadOnlyList<BusWithProbes> read = one is null ? buses : [.. buses.Select(bus => bus with { Probes = [.. bus.Probes.Where(probe => Serves(probe.Definition, one))] })
            .Where(bus => bus.Probes.Count > 0)];
        var talk = asked.Talk ? ProbeTalk.Over(read, one!, asked.Json ? console.Error : console.Out) : null;
        var taken = await BenchReading.TakeAsync(read, known, clock, talk is null ? null : talk.Asking, cancel);
        var calibrations = KeptCalibrations.Of(asked.Store.Folder, console);
        var rows = BenchReading.Judge(vats, calibrations, taken).Where(row => one is null || row.Probe.Id == one.Id).ToList();
        var remarks = read.SelectMany(bus => bus.Probes).ToDictionary(probe => probe.Definition.Id, probe => probe.Remark);
        foreach (var bus in buses)
        {
            await bus.Bus.DisposeAsync();
        }

        var counters = new ProbeCounters();
        foreach (var (probe, measurement, _) in rows)
        {
            counters.Sampled(probe.Id, measurement.Quality);
        }

        if (asked.Json)
        {
            WriteJson(rows, remarks, counters, console.Out);
        }
        else
        {
            WriteTable(rows, remarks, watch.Units, console.Out);
        }

        return ExitCode.Success;
    }

    /// <summary>Whether a probe is read when <paramref name="one"/> is wanted: itself, or a temperature that it is judged by.</summary>
    private static bool Serves(ProbeDefinition probe, ProbeDefinition one) => probe.Id == one.Id || (probe.Vat == one.Vat && probe.Quantity == Quantity.Temperature && one.Quantity is Quantity.Ph or Quantity.Orp);

    private static void WriteJson(
        IEnumerable<(ProbeDefinition Probe, Measurement Measurement, TimeSpan Took)> rows, Dictionary<ProbeId, string?> remarks, ProbeCounters counters, TextWriter output) =>
        AdviceWriter.WriteJsonValue(output, writer =>
        {
            writer.WriteStartArray();
            foreach (var (probe, measurement, took) in rows)
            {
                writer.WriteStartObject();
                writer.WriteString("vat", probe.Vat.Value);
                writer.WriteString("probe", probe.Id.Value);
                writer.WriteString("measures", probe.Quantity.Word());
                AdviceWriter.WriteNumber(writer, "raw", measurement.Raw);
                AdviceWriter.WriteNumber(writer, "value", measurement.Value);
                writer.WriteString("unit", probe.Quantity.Unit());
                writer.WriteString("quality", measurement.Quality.Word());
                writer.WriteString("reason", measurement.Reason);
                writer.WriteNumber("milliseconds", Math.Round(took.TotalMilliseconds, 1));
                writer.WriteString("remark", remarks[probe.Id]);
                writer.WriteString("check", ProbeAdvice.For(probe, measurement));
                WriteCounts(writer, counters.Of(probe.Id));
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
        });

    private static void WriteCounts(Utf8JsonWriter writer, ProbeCounters.ProbeCounts counts)
    {
        writer.WriteStartObject("counts");
        writer.WriteNumber("good", counts.Good);
        writer.WriteNumber("suspect", counts.Suspect);
        writer.WriteNumber("missing", counts.Missing);
        writer.WriteNumber("fault", counts.Fault);
        writer.WriteEndObject();
    }

    private static void WriteTable(
        IReadOnlyList<(ProbeDefinition Probe, Measurement Measurement, TimeSpan Took)> rows, Dictionary<ProbeId, string?> remarks, DisplayUnits units, TextWriter output)
    {
        string[][] cells =
        [
            ["vat", "probe", "measures", "raw", "value", "quality", "took", "reason"],
            .. rows.Select(row => new[]
            {
                row.Probe.Vat.Value,
                row.Probe.Id.Value,
                row.Probe.Quantity.Word(),
                row.Measurement.Raw is { } raw ? $"{raw:0.###} {row.Probe.Unit.Text}" : "-",
                row.Measurement.Value is { } value ? units.Value(row.Probe.Quantity, value) : "-",
                row.Measurement.Quality.Word(),
                $"{row.Took.TotalMilliseconds:0} ms",
                units.Words(row.Measurement.Reason ?? ""),
            }),
        ];
        var widths = Enumerable.Range(0, cells[0].Length).Select(column => cells.Max(row => row[column].Length)).ToArray();
        foreach (var row in cells)
        {
            output.WriteLine(string.Join("  ", row.Select((cell, column) => cell.PadRight(widths[column]))).TrimEnd());
        }

        foreach (var (probe, measurement, _) in rows)
        {
            if (remarks[probe.Id] is { } remark)
            {
                output.WriteLine($"{probe.Id}: {remark}");
            }

            if (ProbeAdvice.For(probe, measurement) is { } advice)
            {
                output.WriteLine();
                output.WriteLine($"{probe.Id} ({probe.Driver} on bus {probe.Bus}): {advice}");
            }
        }
    }

    /// <summary>What the command line asks for.</summary>
    private sealed record Asked(ConfiguredStore Store, bool Json, string? Probe, bool Talk);
}

/// <summary>What to look at on the bench when a probe gives no good value; its driver knows.</summary>
internal static class ProbeAdvice
{
    /// <summary>What reasons say when nothing was reached, against a value that is none.</summary>
    private static readonly string[] Unreached =
        ["there is no /", "there is no folder", "cannot open", "cannot be opened", "did not open", "cannot connect", "does not answer", "no chip on"];

    /// <summary>One sentence or two, or null when the value is good.</summary>
    public static string? For(ProbeDefinition probe, Measurement measurement)
    {
        if (measurement.Quality == Quality.Good)
        {
            return null;
        }

        if (measurement.Reason?.Contains("calibrated", StringComparison.Ordinal) == true)
        {
            return $"Calibrate it: vatwatch calibrate {(probe.Quantity == Quantity.Orp ? "orp" : "ph")} --probe {probe.Id}.";
        }

        var advice = Catalog.Everything.Drivers[probe.Driver].Advice;
        var neverAnswered = measurement.Quality == Quality.Missing || Unreached.Any(words => measurement.Reason?.Contains(words, StringComparison.Ordinal) == true);
        return neverAnswered ? advice.Silent : advice.Wrong;
    }
}
