using System.Globalization;
using System.Text.Json;
using VatWatch.SystemTests;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.BrowserTests;

/// <summary>
/// The real daemon over an instrument in another process whose values a test sets, with a folder and ports of its own. Stopped and removed at the end.
/// </summary>
internal sealed class NightStudio : IAsyncDisposable
{
    /// <summary>Password of those who may change things.</summary>
    public const string OperatorPassword = "woad and weld";

    /// <summary>Password of those who may look.</summary>
    public const string ViewerPassword = "only looking on";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(40);

    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-browser-").FullName;
    private readonly int _port = FreePort.Next();
    private readonly int _broker = FreePort.Next();
    private VatWatchProcess? _watch;

    private NightStudio(PtyInstrument instrument) => Instrument = instrument;

    /// <summary>What the probes are.</summary>
    public PtyInstrument Instrument { get; }

    /// <summary>Where the pages are.</summary>
    public string Url => string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{_port}");

    /// <summary>Starts a vat that is warm, alkaline and reduced.</summary>
    public static async Task<NightStudio> OpenAsync(string name = "Weld Yard vat", bool passwords = false)
    {
        var studio = new NightStudio(await PtyInstrument.AskedAsync());
        await studio.Instrument.TellAsync("set T 45.2");
        await studio.Instrument.TellAsync("set PH 10.02");
        await studio.Instrument.TellAsync("set ORP -705");
        var access = passwords ? await studio.PasswordsAsync() : "";
        File.WriteAllText(studio.Config, studio.Text(name, access));
        await studio.StartAsync();
        return studio;
    }

    private string Config => Path.Combine(_folder, "vatwatch.json");

    /// <summary>Starts the daemon, and waits until it has judged the vat.</summary>
    public async Task StartAsync()
    {
        _watch = VatWatchProcess.Start("run", "--config", Config);
        await Eventually.TrueAsync(() => _watch.HasExited || _watch.Output.Contains("is ready", StringComparison.Ordinal) || _watch.Output.Contains("is too hot", StringComparison.Ordinal),
            "the vat is judged", Patience);
        Assert.False(_watch.HasExited, _watch.Output + _watch.Errors);
    }

    /// <summary>Kills the daemon as a power cut does.</summary>
    public Task KillAsync() => _watch!.KillAsync();

    public async ValueTask DisposeAsync()
    {
        if (_watch is not null)
        {
            await _watch.DisposeAsync();
        }

        await Instrument.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    private async Task<string> PasswordsAsync()
    {
        foreach (var (file, password) in new[] { ("operators", OperatorPassword), ("viewers", ViewerPassword) })
        {
            await ToolRun.RequireAsync("/bin/sh", ["-c", $"printf '%s\\n' '{password}' | '{VatWatchProcess.Binary}' password --out '{Path.Combine(_folder, file)}'"]);
        }

        return $", \"passwordFile\": {JsonSerializer.Serialize(Path.Combine(_folder, "operators"))}, \"viewerPasswordFile\": {JsonSerializer.Serialize(Path.Combine(_folder, "viewers"))}";
    }

    private string Text(string name, string access) => $$$"""
        {
          "site": "test-studio",
          "display": "us",
          "data": {{{JsonSerializer.Serialize(Path.Combine(_folder, "data"))}}},
          "web": { "listen": "{{{Url}}}"{{{access}}} },
          "mqtt": { "broker": "builtin", "listen": "127.0.0.1:{{{_broker}}}" },
          "contacts": [ { "id": "bedside", "way": "mqtt" } ],
          "store": { "commitInterval": "1 s" },
          "buses": { "bench": { "kind": "serial", "port": {{{JsonSerializer.Serialize(Instrument.Port)}}}, "baud": 9600 } },
          "vats": [ {
            "id": "weld-yard", "name": {{{JsonSerializer.Serialize(name)}}}, "volume": "60 L", "fibre": "protein", "reducer": "thiourea-dioxide",
            "temperature": { "low": "100 °F", "high": "118 °F", "limit": "120 °F" },
            "ph":  { "low": 9.5, "high": 10.5 },
            "orp": { "weak": "-660 mV", "oxidised": "-580 mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
            "alarms": { "overheat": { "onDelay": "1 s", "offDelay": "1 s" } },
            "probes": [
              { "id": "liquor", "measures": "temperature", "bus": "bench", "driver": "text-line", "every": "500 ms",
                "settings": { "ask": "T?\\r\\n", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" } },
              { "id": "liquor-ph", "measures": "ph", "bus": "bench", "driver": "text-line", "every": "500 ms",
                "settings": { "ask": "PH?\\r\\n", "pattern": "^PH=(?<value>[-+0-9.]+)$", "unit": "pH" } },
              { "id": "liquor-orp", "measures": "orp", "bus": "bench", "driver": "text-line", "every": "500 ms",
                "settings": { "ask": "ORP?\\r\\n", "pattern": "^ORP=(?<value>[-+0-9.]+)$", "unit": "mV" } }
            ]
          } ]
        }
        """;
}
