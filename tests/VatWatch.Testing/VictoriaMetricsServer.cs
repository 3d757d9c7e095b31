using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace VatWatch.Testing;

/// <summary>
/// Debian's victoria-metrics on a free port of loopback with a folder of its own: a real server that takes InfluxDB's v2 writes and gives
/// numbers back by its own export. It keeps milliseconds and no words. Disposing ends it and removes the folder.
/// </summary>
internal sealed class VictoriaMetricsServer : IAsyncDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("victoria-metrics-").FullName;
    private readonly HttpClient _http = new() { Timeout = TimeSpan.FromSeconds(30) };
    private Process? _process;

    private VictoriaMetricsServer()
    {
    }

    /// <summary>Port on 127.0.0.1.</summary>
    public int Port { get; } = FreePort.Next();

    /// <summary>Its address.</summary>
    public string Url => string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{Port}");

    /// <summary>Starts one; completes when it answers.</summary>
    public static async Task<VictoriaMetricsServer> StartAsync()
    {
        var server = new VictoriaMetricsServer();
        await server.StartAgainAsync();
        return server;
    }

    /// <summary>Starts it after <see cref="KillAsync"/>, on the same port and folder.</summary>
    public async Task StartAgainAsync()
    {
        string[] flags =
        [
            string.Create(CultureInfo.InvariantCulture, $"-httpListenAddr=127.0.0.1:{Port}"),
            $"-storageDataPath={_folder}",
            "-retentionPeriod=100y",
            "-memory.allowedBytes=64MB",
            "-loggerLevel=ERROR",
        ];
        var start = new ProcessStartInfo("victoria-metrics", flags) { RedirectStandardError = true, RedirectStandardOutput = true };
        _process = Process.Start(start) ?? throw new InvalidOperationException("victoria-metrics did not start");
        _process.ErrorDataReceived += static (_, _) => { };
        _process.OutputDataReceived += static (_, _) => { };
        _process.BeginErrorReadLine();
        _process.BeginOutputReadLine();
        await Eventually.TrueAsync(() => _process.HasExited || Answers(), "victoria-metrics answers", TimeSpan.FromSeconds(60));
        if (_process.HasExited)
        {
            throw new InvalidOperationException($"victoria-metrics ended with {_process.ExitCode}");
        }
    }

    /// <summary>Kills it (SIGKILL).</summary>
    public async Task KillAsync()
    {
        if (_process is { } process)
        {
            _process = null;
            using (process)
            {
                process.Kill();
                using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(10));
                await process.WaitForExitAsync(limit.Token);
            }
        }
    }

    /// <summary>Samples of one metric: for each of its series the labels and the values by millisecond, as often as they are there.</summary>
    public async Task<IReadOnlyList<(IReadOnlyDictionary<string, string> Labels, IReadOnlyList<(long Milliseconds, double Value)> Samples)>> ExportAsync(string metric)
    {
        using var flushed = await _http.GetAsync(new Uri($"{Url}/internal/force_flush"));
        flushed.EnsureSuccessStatusCode();
        var text = await _http.GetStringAsync(new Uri($"{Url}/api/v1/export?match[]={metric}&start=0"));
        return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Read)];
    }

    public async ValueTask DisposeAsync()
    {
        await KillAsync();
        _http.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private static (IReadOnlyDictionary<string, string>, IReadOnlyList<(long, double)>) Read(string line)
    {
        using var document = JsonDocument.Parse(line);
        var root = document.RootElement;
        var labels = root.GetProperty("metric").EnumerateObject().ToDictionary(label => label.Name, label => label.Value.GetString()!);
        var values = root.GetProperty("values").EnumerateArray().Select(value => value.GetDouble());
        var times = root.GetProperty("timestamps").EnumerateArray().Select(time => time.GetInt64());
        return (labels, [.. times.Zip(values)]);
    }

    private bool Answers()
    {
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, $"{Url}/health");
            using var reply = _http.Send(request);
            return reply.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }
}
