using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Threading.Channels;

namespace VatWatch.Testing.Servers;

/// <summary>A server of this folder in a process of its own: what it took, one line each, and commands to it.</summary>
internal sealed class PythonServer : IAsyncDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(15);
    private readonly Process _process;
    private readonly ConcurrentQueue<string> _taken = new();
    private readonly Channel<string> _answers = Channel.CreateUnbounded<string>();

    private PythonServer(Process process, int port)
    {
        (_process, Port) = (process, port);
        process.OutputDataReceived += (_, line) =>
        {
            if (line.Data is { } said)
            {
                Note(said);
            }
        };
        process.BeginOutputReadLine();
    }

    /// <summary>Its port on 127.0.0.1.</summary>
    public int Port { get; }

    /// <summary>The JSON lines that it said.</summary>
    public IReadOnlyList<string> Taken => [.. _taken];

    /// <summary>Starts one of the scripts by the system's own Python, for Debian's packages.</summary>
    public static async Task<PythonServer> StartAsync(string script, int? port = null, params string[] arguments)
    {
        var listen = port ?? FreePort.Next();
        string[] all = [Path.Combine(AppContext.BaseDirectory, "Servers", script), listen.ToString(CultureInfo.InvariantCulture), .. arguments];
        var start = new ProcessStartInfo("/usr/bin/python3", all) { RedirectStandardInput = true, RedirectStandardOutput = true };
        var server = new PythonServer(Process.Start(start) ?? throw new InvalidOperationException("python3 did not start"), listen);
        await server.AnswerAsync("ready");
        return server;
    }

    /// <summary>Sends a command of the script's head; returns when it is obeyed.</summary>
    public async Task TellAsync(string command)
    {
        await _process.StandardInput.WriteLineAsync(command);
        await _process.StandardInput.FlushAsync();
        await AnswerAsync("ok");
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            await _process.WaitForExitAsync().WaitAsync(Limit);
        }

        _process.Dispose();
    }

    private void Note(string said)
    {
        if (said.StartsWith('{'))
        {
            _taken.Enqueue(said);
        }
        else
        {
            _answers.Writer.TryWrite(said);
        }
    }

    private async Task AnswerAsync(string wanted)
    {
        var said = await _answers.Reader.ReadAsync().AsTask().WaitAsync(Limit);
        if (said != wanted)
        {
            throw new InvalidOperationException($"The server said '{said}'; wanted '{wanted}'.");
        }
    }
}
