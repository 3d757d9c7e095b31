using System.Collections.Concurrent;
using System.Diagnostics;

namespace VatWatch.Tests.Store;

/// <summary>Another process that has to do with the store (tests/VatWatch.StoreHost); killed at the latest when the test ends.</summary>
internal sealed class StoreHost : IDisposable
{
    private readonly Process _process;
    private readonly BlockingCollection<string> _lines = [];

    public StoreHost(string mode, params string[] arguments)
    {
        var host = Path.Combine(AppContext.BaseDirectory, "VatWatch.StoreHost.dll");
        _process = new Process
        {
            StartInfo = new ProcessStartInfo("dotnet", ["exec", host, mode, .. arguments]) { RedirectStandardOutput = true, RedirectStandardInput = true },
        };
        _process.OutputDataReceived += (_, line) =>
        {
            if (line.Data is { } text)
            {
                _lines.Add(text);
            }
            else
            {
                _lines.CompleteAdding();
            }
        };
        _process.Start();
        _process.BeginOutputReadLine();
    }

    public int Pid => _process.Id;

    /// <summary>The next line it says.</summary>
    public string Next() => _lines.TryTake(out var line, TimeSpan.FromSeconds(20)) ? line : throw new TimeoutException("the other process said nothing for 20 s");

    /// <summary>SIGKILL; then everything it had said.</summary>
    public List<string> Kill()
    {
        _process.Kill();
        _process.WaitForExit();
        return [.. _lines.GetConsumingEnumerable()];
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            Kill();
        }

        _process.Dispose();
        _lines.Dispose();
    }
}
