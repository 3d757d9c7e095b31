using System.Diagnostics;

namespace VatWatch.Testing.Instruments;

/// <summary>
/// An instrument in another process, on a pseudo-terminal: <c>text_instrument.py</c> or <c>modbus_instrument.py</c>, whose heads list what
/// can be commanded. Commands are sent one at a time; each returns when the instrument has obeyed.
/// </summary>
public sealed class PtyInstrument : IAsyncDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(30);

    private readonly Process _process;
    private readonly SemaphoreSlim _turn = new(1, 1);

    private PtyInstrument(Process process, string port)
    {
        _process = process;
        Port = port;
    }

    /// <summary>Path to open: a symbolic link that is absent while the plug is pulled.</summary>
    public string Port { get; }

    /// <summary>Starts an instrument that answers questions.</summary>
    public static Task<PtyInstrument> AskedAsync(string ending = @"\r\n") => StartTextAsync("--mode", "ask", "--ending", ending);

    /// <summary>Starts an instrument that answers no question before it has had its first command.</summary>
    public static Task<PtyInstrument> ShyAsync() => StartTextAsync("--mode", "ask", "--shy");

    /// <summary>Starts an instrument that streams a line at each period.</summary>
    public static Task<PtyInstrument> StreamingAsync(double periodSeconds, string ending = @"\r\n") =>
        StartTextAsync("--mode", "stream", "--period", $"{periodSeconds}", "--ending", ending);

    /// <summary>Starts Modbus RTU devices 17 and 18, served by pymodbus of the system's own Python (package python3-pymodbus).</summary>
    public static Task<PtyInstrument> ModbusAsync()
    {
        var link = NewLink();
        return StartAsync("/usr/bin/python3", "modbus_instrument.py", link, link);
    }

    /// <summary>Starts the same devices on a network: <see cref="Port"/> is then the number of a port on the loopback.</summary>
    public static Task<PtyInstrument> ModbusOnNetworkAsync() => StartAsync("/usr/bin/python3", "modbus_instrument.py", "tcp", "tcp");

    /// <summary>Sends one command, such as <c>set T 45.2</c> or <c>hangup</c>.</summary>
    public Task TellAsync(string command) => TellAsync(command, Limit);

    /// <summary>Sends one command that takes its time.</summary>
    public async Task TellAsync(string command, TimeSpan limit)
    {
        await _turn.WaitAsync();
        try
        {
            await _process.StandardInput.WriteLineAsync(command);
            await _process.StandardInput.FlushAsync();
            var answer = await _process.StandardOutput.ReadLineAsync().WaitAsync(limit);
            if (answer != "ok")
            {
                throw new InvalidOperationException($"The instrument answered '{answer}' to '{command}'.");
            }
        }
        finally
        {
            _turn.Release();
        }
    }

    public async ValueTask DisposeAsync()
    {
        try
        {
            _process.StandardInput.Close();
            await _process.WaitForExitAsync().WaitAsync(Limit);
        }
        catch (Exception failure) when (failure is IOException or TimeoutException)
        {
            _process.Kill();
        }

        _process.Dispose();
        _turn.Dispose();
    }

    private static Task<PtyInstrument> StartTextAsync(params string[] arguments)
    {
        var link = NewLink();
        return StartAsync("python3", "text_instrument.py", link, ["--link", link, .. arguments]);
    }

    private static string NewLink() => Path.Combine(Path.GetTempPath(), $"vatwatch-instrument-{Guid.NewGuid():N}");

    private static async Task<PtyInstrument> StartAsync(string python, string script, string link, params string[] arguments)
    {
        var start = new ProcessStartInfo(python)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Instruments", script));
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        var process = Process.Start(start) ?? throw new InvalidOperationException("python3 did not start.");
        var ready = await process.StandardOutput.ReadLineAsync().WaitAsync(Limit);
        if (ready?.Split(' ') is ["ready", var port])
        {
            return new PtyInstrument(process, port);
        }

        return ready == "ready" ? new PtyInstrument(process, link) : throw new InvalidOperationException($"{script} said '{ready}'.");
    }
}
