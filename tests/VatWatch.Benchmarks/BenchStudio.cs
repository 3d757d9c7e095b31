using System.Globalization;
using System.Text.Json;
using VatWatch.Testing;

namespace VatWatch.Benchmarks;

/// <summary>Configurations of the benchmarks in a folder that is removed at the end.</summary>
internal sealed class BenchStudio : IDisposable
{
    public BenchStudio() => Directory.CreateDirectory(Folder);

    public string Folder { get; } = Path.Combine(Environment.GetEnvironmentVariable("VATWATCH_BENCH_FOLDER") ?? Path.GetTempPath(), "vatwatch-bench-" + Guid.NewGuid().ToString("n")[..12]);

    public string Config => Path.Combine(Folder, "vatwatch.json");

    /// <summary>One streaming thermometer whose overheat alarm has no delay.</summary>
    public void WriteStreaming(string port, int broker) => Write(
        string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "mqtt://127.0.0.1:{{broker}}" }"""),
        $$"""{ "kind": "serial", "port": "{{port}}" }""",
        """{ "overheat": { "onDelay": "0 s", "offDelay": "0 s", "deadband": "0.1 °F" } }""",
        """{ "id": "liquor", "measures": "temperature", "bus": "b", "driver": "text-line", "every": "100 ms", "settings": { "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" } }""");

    /// <summary>Six simulated probes in life's own time.</summary>
    public void WriteSix() => Write(
        string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{FreePort.Next()}}" }"""),
        """{ "kind": "simulation" }""",
        "{}",
        string.Join(",\n", new[] { "temperature", "temperature", "ambient", "ph", "orp", "heater" }.Select((measures, index) =>
            $$"""{ "id": "p{{index}}", "measures": "{{measures}}", "bus": "b", "driver": "simulated", "every": "5 s" }""")));

    /// <summary>Six probes asked over one serial line every five seconds.</summary>
    public void WriteSixAsked(string port) => Write(
        string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{FreePort.Next()}}" }"""),
        $$"""{ "kind": "serial", "port": "{{port}}" }""",
        "{}",
        string.Join(",\n", Enumerable.Range(0, 6).Select(index =>
            $$"""{ "id": "p{{index}}", "measures": "temperature", "bus": "b", "driver": "text-line", "every": "5 s", "settings": { "ask": "T?\\r\\n", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" } }""")));

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private void Write(string mqtt, string bus, string alarms, string probes) => File.WriteAllText(Config, $$$"""
        {
          "site": "bench", "display": "si", "data": {{{JsonSerializer.Serialize(Path.Combine(Folder, "data"))}}},
          "web": { "listen": "http://127.0.0.1:{{{FreePort.Next()}}}" },
          "mqtt": {{{mqtt}}},
          "buses": { "b": {{{bus}}} },
          "vats": [ { "id": "still", "name": "Still vat", "volume": "60 L", "fibre": "protein", "reducer": "dithionite",
            "temperature": { "low": "38 °C", "high": "47 °C", "limit": "49 °C" }, "alarms": {{{alarms}}},
            "probes": [ {{{probes}}} ] } ]
        }
        """);
}
