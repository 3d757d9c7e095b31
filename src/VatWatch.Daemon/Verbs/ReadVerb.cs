using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;
using VatWatch.Daemon.Wiring;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Readings;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch read</c>: one reading from every probe, for the bench.</summary>
internal static class ReadVerb
{
    private static readonly JsonWriterOptions Readable = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static Command Create(VerbConsole console)
    {
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var json = CommonOptions.Json();
        var command = new Command("read", "Take one reading from every probe and print raw value, calibrated value, quality and reason.") { config, data, json };
        command.SetAction((parsed, cancel) => RunAsync(parsed.GetValue(config), parsed.GetValue(data), parsed.GetValue(json), console, cancel));
        return command;
    }

    private static async Task<int> RunAsync(string? path, string? data, bool json, VerbConsole console, CancellationToken cancel)
    {
        if (DaemonConfiguration.Load(path, console.Error) is not { } configuration)
        {
            return ExitCode.BadConfiguration;
        }

        var clock = new WatchClock(TimeProvider.System);
        var benches = BusWithProbes.Build(configuration.Watch, clock);
        var read = await Task.WhenAll(benches.Select(bench => BenchReading.TakeAsync(bench, clock, cancel)));
        var shelf = KeptCalibrations.Of(data ?? configuration.Watch.DataFolder, console);
        var rows = BenchReading.Judge(configuration.Watch.Vats.Select(vat => vat.Definition), shelf, [.. read.SelectMany(rows => rows)]);
        foreach (var bench in benches)
        {
            await bench.Bus.DisposeAsync();
        }

        var counters = new ProbeCounters();
        foreach (var (probe, measurement, _) in rows)
        {
            counters.Sampled(probe.Id, measurement.Quality);
        }

        if (json)
        {
            WriteJson(rows, counters, console.Out);
        }
        else
        {
            WriteTable(rows, configuration.Watch.Units, console.Out);
        }

        return ExitCode.Success;
    }

    private static void WriteJson(IEnumerable<(ProbeDefinition Probe, Measurement Measurement, TimeSpan Took)> rows, ProbeCounters counters, TextWriter output)
    {
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, Readable))
        {
            writer.WriteStartArray();
            foreach (var (probe, measurement, took) in rows)
            {
                writer.WriteStartObject();
                writer.WriteString("vat", probe.Vat.Value);
                writer.WriteString("probe", probe.Id.Value);
                writer.WriteString("measures", probe.Quantity.Word());
                WriteNumber(writer, "raw", measurement.Raw);
                WriteNumber(writer, "value", measurement.Value);
                writer.WriteString("unit", probe.Quantity.Unit());
                writer.WriteString("quality", measurement.Quality.Word());
                writer.WriteString("reason", measurement.Reason);
                writer.WriteNumber("milliseconds", Math.Round(took.TotalMilliseconds, 1));
                writer.WriteString("check", ProbeAdvice.For(probe, measurement));
                WriteCounts(writer, counters.Of(probe.Id));
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
        }

        output.WriteLine(System.Text.Encoding.UTF8.GetString(buffer.ToArray()));
    }

    private static void WriteCounts(Utf8JsonWriter writer, ProbeCounters.ProbeCounts counts)
    {
        writer.WriteStartObject("counts");
        writer.WriteNumber("good", counts.Good);
        writer.WriteNumber("suspect", counts.Suspect);
        writer.WriteNumber("missing", counts.Missing);
        writer.WriteNumber("fault", counts.Fault);
        writer.WriteEndObject();
    }

    private static void WriteNumber(Utf8JsonWriter writer, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            writer.WriteNumber(name, number);
        }
        else
        {
            writer.WriteNull(name);
        }
    }

    private static void WriteTable(
        IReadOnlyList<(ProbeDefinition Probe, Measurement Measurement, TimeSpan Took)> rows, DisplayUnits units, TextWriter output)
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
                row.Measurement.Reason ?? "",
            }),
        ];
        var widths = Enumerable.Range(0, cells[0].Length).Select(column => cells.Max(row => row[column].Length)).ToArray();
        foreach (var row in cells)
        {
            output.WriteLine(string.Join("  ", row.Select((cell, column) => cell.PadRight(widths[column]))).TrimEnd());
        }

        foreach (var (probe, measurement, _) in rows)
        {
            if (ProbeAdvice.For(probe, measurement) is { } advice)
            {
                output.WriteLine();
                output.WriteLine($"{probe.Id} ({probe.Driver} on bus {probe.Bus}): {advice}");
            }
        }
    }
}
