using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Tests.Verbs;

/// <summary>A configuration and a data folder of their own, and the command line run in this process.</summary>
internal sealed class Bench : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("calibrate-test-").FullName;

    public Bench(string port = "/dev/vatwatch/none")
    {
        File.WriteAllText(Config, $$"""
            {
              "site": "weld-yard",
              "display": "si",
              "data": "unused",
              "buses": { "bench": { "kind": "serial", "port": "{{port}}" } },
              "vats": [ {
                "id": "weld-60", "volume": "60 L", "fibre": "cellulose", "reducer": "fructose",
                "temperature": { "low": "40 °C", "high": "48 °C", "limit": "49 °C" },
                "ph": { "low": 9.5, "high": 10.5 },
                "orp": { "weak": "-660 mV", "oxidised": "-580 mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
                "probes": [
                  { "id": "glass", "measures": "ph", "bus": "bench", "driver": "text-line",
                    "settings": { "ask": "E?\\r", "pattern": "^E=(?<value>[-+0-9.]+)$", "unit": "electrode mV" },
                    "calibration": { "maxAge": "14 d", "failOffset": "55 mV" } },
                  { "id": "platinum", "measures": "orp", "bus": "bench", "driver": "text-line",
                    "settings": { "ask": "ORP?\\r", "pattern": "^ORP=(?<value>[-+0-9.]+)$", "unit": "mV" } },
                  { "id": "finished", "measures": "ph", "bus": "bench", "driver": "text-line",
                    "settings": { "ask": "P?\\r", "pattern": "^P=(?<value>[-+0-9.]+)$", "unit": "pH" } }
                ]
              } ]
            }
            """);
    }

    public string Config => Path.Combine(_folder, "vatwatch.json");

    public string Data => Path.Combine(_folder, "data");

    /// <summary>Runs one verb with this configuration and data folder.</summary>
    public async Task<(int Code, string Out, string Error)> RunAsync(string[] arguments, TextReader? person = null)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await VatWatchCommand.RunAsync([.. arguments, "--config", Config, "--data", Data], new VerbConsole(output, error, person));
        return (code, output.ToString(), error.ToString());
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
