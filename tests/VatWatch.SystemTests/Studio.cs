using System.Globalization;
using System.Text.Json;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary>A folder with a configuration, data and free ports of its own: everything one run of the daemon needs. Removed at the end.</summary>
internal sealed class Studio : IDisposable
{
    /// <summary>For this user alone, as a folder with secrets in it must be.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("vatwatch-").FullName;

    public string Config => Path.Combine(Folder, "vatwatch.json");

    public string Data => Path.Combine(Folder, "data");

    public int WebPort { get; } = FreePort.Next();

    /// <summary>Where the built-in broker listens, when <see cref="WriteConfig"/> made the configuration.</summary>
    public int MqttPort { get; } = FreePort.Next();

    public string Url => string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{WebPort}");

    /// <summary>One vat with temperature, pH and ORP asked from the text instrument at <paramref name="port"/>.</summary>
    public void WriteBenchConfig(string port, string mqtt, string every = "200 ms", string alarms = "{}") => File.WriteAllText(Config, $$$"""
        {
          "site": "test-studio",
          "display": "us",
          "data": {{{JsonSerializer.Serialize(Data)}}},
          "web": { "listen": "{{{Url}}}" },
          "mqtt": {{{mqtt}}},
          "store": { "commitInterval": "1 s" },
          "buses": { "bench": { "kind": "serial", "port": {{{JsonSerializer.Serialize(port)}}}, "baud": 9600 } },
          "vats": [ {
            "id": "weld-yard", "name": "Weld Yard vat", "volume": "60 L", "fibre": "protein", "reducer": "thiourea-dioxide",
            "temperature": { "low": "100 °F", "high": "118 °F", "limit": "120 °F" },
            "ph":  { "low": 9.5, "high": 10.5 },
            "orp": { "weak": "-660 mV", "oxidised": "-580 mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
            "alarms": {{{alarms}}},
            "probes": [
              { "id": "liquor", "measures": "temperature", "bus": "bench", "driver": "text-line", "every": "{{{every}}}",
                "settings": { "ask": "T?\\r\\n", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" } },
              { "id": "liquor-ph", "measures": "ph", "bus": "bench", "driver": "text-line", "every": "{{{every}}}",
                "settings": { "ask": "PH?\\r\\n", "pattern": "^PH=(?<value>[-+0-9.]+)$", "unit": "pH" } },
              { "id": "liquor-orp", "measures": "orp", "bus": "bench", "driver": "text-line", "every": "{{{every}}}",
                "settings": { "ask": "ORP?\\r\\n", "pattern": "^ORP=(?<value>[-+0-9.]+)$", "unit": "mV" } }
            ]
          } ]
        }
        """);

    /// <summary>These buses and vats, in their JSON, with the built-in broker on a port of its own and a commit each second.</summary>
    public void WriteConfig(string buses, string vats, string store = """{ "commitInterval": "1 s" }""") => File.WriteAllText(Config, $$$"""
        {
          "site": "test-studio",
          "display": "si",
          "data": {{{JsonSerializer.Serialize(Data)}}},
          "web": { "listen": "{{{Url}}}" },
          "mqtt": { "broker": "builtin", "listen": "127.0.0.1:{{{MqttPort}}}" },
          "store": {{{store}}},
          "buses": { {{{buses}}} },
          "vats": [ {{{vats}}} ]
        }
        """);

    /// <summary>Another broker in the place of the built-in one, so that it outlives the daemon.</summary>
    public void UseBroker(int port) => File.WriteAllText(Config, File.ReadAllText(Config).Replace(
        $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{MqttPort}}" }""", $$"""{ "broker": "mqtt://127.0.0.1:{{port}}" }""", StringComparison.Ordinal));

    /// <summary>One vat in its JSON, with the bands of the bench's.</summary>
    public static string Vat(string id, string probes, string alarms = "{}") => $$$"""
        {
          "id": "{{{id}}}", "name": "Vat {{{id}}}", "volume": "60 L", "fibre": "protein", "reducer": "thiourea-dioxide",
          "temperature": { "low": "38 °C", "high": "47.5 °C", "limit": "49 °C" },
          "ph":  { "low": 9.5, "high": 10.5 },
          "orp": { "weak": "-660 mV", "oxidised": "-580 mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
          "alarms": {{{alarms}}},
          "probes": [ {{{probes}}} ]
        }
        """;

    /// <summary>Adds sections to the configuration.</summary>
    public void Add(string sections) => File.WriteAllText(Config, File.ReadAllText(Config).TrimEnd()[..^1] + ",\n" + sections + "\n}\n");

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
