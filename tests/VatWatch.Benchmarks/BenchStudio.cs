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

    /// <summary>Where the store is.</summary>
    public string Data => Path.Combine(Folder, "data");

    /// <summary>Address of the page; known once a configuration is written.</summary>
    public string Page { get; private set; } = "";

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
        Simulated("p", "temperature", "temperature", "ambient", "ph", "orp", "heater"));

    /// <summary>Six probes asked over one serial line every five seconds.</summary>
    public void WriteSixAsked(string port) => Write(
        string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{FreePort.Next()}}" }"""),
        $$"""{ "kind": "serial", "port": "{{port}}" }""",
        "{}",
        string.Join(",\n", Enumerable.Range(0, 6).Select(index =>
            $$"""{ "id": "p{{index}}", "measures": "temperature", "bus": "b", "driver": "text-line", "every": "5 s", "settings": { "ask": "T?\\r\\n", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" } }""")));

    /// <summary>A vat whose temperature, pH and ORP were recorded every ten seconds.</summary>
    public void WriteRecorded() => Write(
        """{ "broker": "builtin" }""",
        """{ "kind": "serial", "port": "/dev/vatwatch/none" }""",
        "{}",
        string.Join(",\n", new[] { ("liquor", "temperature", "°C"), ("ph", "ph", "pH"), ("orp", "orp", "mV") }.Select(one =>
            $$"""{ "id": "{{one.Item1}}", "measures": "{{one.Item2}}", "bus": "b", "driver": "text-line", "every": "10 s", "settings": { "pattern": "^(?<value>[-+0-9.]+)$", "unit": "{{one.Item3}}" } }""")));

    /// <summary>So many simulated probes in life's own time, four to a vat.</summary>
    public void WriteMany(int probes) => Write(
        string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{FreePort.Next()}}" }"""),
        """{ "kind": "simulation" }""",
        string.Join(",\n", Enumerable.Range(0, probes / 4).Select(vat => Vat($"still-{vat}", "{}", Simulated($"v{vat}", "temperature", "ambient", "ph", "orp")))));

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string Simulated(string names, params string[] measures) => string.Join(",\n", measures.Select((word, index) =>
        $$"""{ "id": "{{names}}-{{index}}", "measures": "{{word}}", "bus": "b", "driver": "simulated", "every": "5 s" }"""));

    private static string Vat(string id, string alarms, string probes) => $$"""
        { "id": "{{id}}", "name": "Still vat", "volume": "60 L", "fibre": "protein", "reducer": "dithionite",
          "temperature": { "low": "38 °C", "high": "47 °C", "limit": "49 °C" }, "alarms": {{alarms}},
          "probes": [ {{probes}} ] }
        """;

    private void Write(string mqtt, string bus, string alarms, string probes) => Write(mqtt, bus, Vat("still", alarms, probes));

    private void Write(string mqtt, string bus, string vats)
    {
        Page = string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{FreePort.Next()}");
        File.WriteAllText(Config, $$$"""
            {
              "site": "bench", "display": "si", "data": {{{JsonSerializer.Serialize(Data)}}},
              "web": { "listen": "{{{Page}}}" },
              "mqtt": {{{mqtt}}},
              "buses": { "b": {{{bus}}} },
              "vats": [ {{{vats}}} ]
            }
            """);
    }
}
