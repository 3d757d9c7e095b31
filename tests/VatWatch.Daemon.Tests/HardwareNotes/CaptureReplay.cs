using System.Diagnostics;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.HardwareNotes;

/// <summary>A capture of hardware-notes, played on a pseudo-terminal by <c>replay_capture.py</c> in another process, until disposed of.</summary>
internal sealed class CaptureReplay : IAsyncDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(10);

    private readonly Process _process;

    private CaptureReplay(Process process, string port)
    {
        _process = process;
        Port = port;
    }

    /// <summary>Path of the port to open.</summary>
    public string Port { get; }

    /// <summary>Starts to play; modes are those at the script's head.</summary>
    public static async Task<CaptureReplay> StartAsync(string mode, string family, string file)
    {
        var port = Path.Combine(Path.GetTempPath(), $"vatwatch-capture-{Guid.NewGuid():N}");
        var start = new ProcessStartInfo("python3") { RedirectStandardInput = true, RedirectStandardOutput = true };
        string[] arguments =
        [
            SourceTree.At("tests", "VatWatch.Daemon.Tests", "HardwareNotes", "replay_capture.py"), port, mode,
            SourceTree.At("hardware-notes", family, "captures", file),
        ];
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        var process = Process.Start(start) ?? throw new InvalidOperationException("python3 did not start.");
        var said = await process.StandardOutput.ReadLineAsync().WaitAsync(Limit);
        return said == "ready" ? new CaptureReplay(process, port) : throw new InvalidOperationException($"replay_capture.py said '{said}'.");
    }

    public async ValueTask DisposeAsync()
    {
        _process.StandardInput.Close();
        try
        {
            await _process.WaitForExitAsync().WaitAsync(Limit);
        }
        catch (TimeoutException)
        {
            _process.Kill();
        }

        _process.Dispose();
    }
}
