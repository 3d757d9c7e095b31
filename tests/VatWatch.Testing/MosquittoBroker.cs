using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Text;

namespace VatWatch.Testing;

/// <summary>
/// A real mosquitto on a free port of loopback, in its own folder. It can be stopped and started on the same port (with
/// <see cref="MosquittoSetup.Persistent"/> it then remembers sessions and retained messages), killed, and paused so that it holds its
/// connections but does nothing. Disposing ends it and removes the folder.
/// </summary>
internal sealed class MosquittoBroker : IAsyncDisposable
{
    private readonly StringBuilder _log = new();
    private readonly MosquittoSetup _setup;
    private Process? _process;

    private MosquittoBroker(MosquittoSetup setup)
    {
        _setup = setup;
        Folder = Directory.CreateTempSubdirectory("mosquitto-").FullName;
    }

    /// <summary>Port on 127.0.0.1.</summary>
    public int Port { get; } = FreePort.Next();

    /// <summary>Its folder; removed at the end.</summary>
    public string Folder { get; }

    /// <summary>Everything it has logged.</summary>
    public string Log
    {
        get
        {
            lock (_log)
            {
                return _log.ToString();
            }
        }
    }

    /// <summary>Writes the configuration and starts it; completes when it takes connections.</summary>
    public static async Task<MosquittoBroker> StartAsync(MosquittoSetup? setup = null)
    {
        var broker = new MosquittoBroker(setup ?? new());
        await broker.WriteConfigurationAsync();
        await broker.StartAgainAsync();
        return broker;
    }

    /// <summary>Starts it after a stop or a kill, on the same port.</summary>
    public async Task StartAgainAsync()
    {
        var start = new ProcessStartInfo("mosquitto", ["-c", Path.Combine(Folder, "mosquitto.conf")]) { RedirectStandardError = true, RedirectStandardOutput = true };
        _process = Process.Start(start) ?? throw new InvalidOperationException("mosquitto did not start");
        _process.ErrorDataReceived += Note;
        _process.OutputDataReceived += Note;
        _process.BeginErrorReadLine();
        _process.BeginOutputReadLine();
        await Eventually.TrueAsync(() => _process.HasExited || Answers(), $"mosquitto listens on {Port}");
        if (_process.HasExited)
        {
            throw new InvalidOperationException($"mosquitto ended: {Log}");
        }
    }

    /// <summary>Asks it to end (SIGTERM) and waits; it says goodbye and, when persistent, saves.</summary>
    public Task StopAsync() => EndAsync(UnixSignal.Terminate);

    /// <summary>Kills it (SIGKILL).</summary>
    public Task KillAsync() => EndAsync(UnixSignal.Kill);

    /// <summary>Freezes it (SIGSTOP): connections stay open and nothing is answered.</summary>
    public void Pause() => UnixSignal.Send(_process!.Id, UnixSignal.Stop);

    /// <summary>Lets it go on after <see cref="Pause"/>.</summary>
    public void Resume() => UnixSignal.Send(_process!.Id, UnixSignal.Continue);

    /// <summary>How many times its log holds <paramref name="text"/>.</summary>
    public int Logged(string text) => Log.Split(text).Length - 1;

    public async ValueTask DisposeAsync()
    {
        await KillAsync();
        Directory.Delete(Folder, recursive: true);
    }

    private async Task EndAsync(int signal)
    {
        if (_process is not { } process)
        {
            return;
        }

        _process = null;
        using (process)
        {
            if (!process.HasExited)
            {
                UnixSignal.Send(process.Id, signal);
                UnixSignal.Send(process.Id, UnixSignal.Continue);
                using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(10));
                await process.WaitForExitAsync(limit.Token);
            }
        }
    }

    private void Note(object sender, DataReceivedEventArgs line)
    {
        lock (_log)
        {
            _log.AppendLine(line.Data);
        }
    }

    private bool Answers()
    {
        try
        {
            using var probe = new TcpClient();
            probe.Connect("127.0.0.1", Port);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    private async Task WriteConfigurationAsync()
    {
        List<string> lines = ["log_dest stderr", "log_type all", "set_tcp_nodelay true"];
        if (Environment.UserName == "root")
        {
            // Otherwise it becomes user "mosquitto", who may not read a temporary folder.
            lines.Add("user root");
        }

        lines.AddRange(_setup.Configuration is { } make ? [await make(Folder, Port)] : await OwnLinesAsync());
        await File.WriteAllLinesAsync(Path.Combine(Folder, "mosquitto.conf"), lines);
    }

    private async Task<List<string>> OwnLinesAsync()
    {
        List<string> lines =
        [
            $"listener {Port.ToString(CultureInfo.InvariantCulture)} 127.0.0.1",
            $"allow_anonymous {(_setup.User is null ? "true" : "false")}",
        ];
        if (_setup.Persistent)
        {
            lines.AddRange(["persistence true", $"persistence_location {Folder}/"]);
        }

        if (_setup.User is { } user)
        {
            var file = Path.Combine(Folder, "passwords");
            await ToolRun.RequireAsync("mosquitto_passwd", ["-b", "-c", file, user, _setup.Password ?? ""]);
            lines.Add($"password_file {file}");
        }

        if (_setup.Certificates is { } certificates)
        {
            lines.AddRange([$"certfile {certificates.ServerCertificate}", $"keyfile {certificates.ServerKey}"]);
        }

        lines.AddRange(_setup.Lines);
        return lines;
    }
}
