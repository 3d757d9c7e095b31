using System.Collections.Concurrent;
using System.Diagnostics;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary>The built <c>vatwatch</c> binary as a process of its own, with what it wrote.</summary>
internal sealed class VatWatchProcess : IAsyncDisposable
{
    private readonly Process _process;
    private readonly ConcurrentQueue<string> _output = new();
    private readonly ConcurrentQueue<string> _errors = new();

    private VatWatchProcess(Process process) => _process = process;

    public int Id => _process.Id;

    public bool HasExited => _process.HasExited;

    public string Output => string.Join('\n', _output);

    public string Errors => string.Join('\n', _errors);

    /// <summary>The folder of the package that the tests' run has published; null where tests are run by themselves.</summary>
    public static string? Published { get; } = Environment.GetEnvironmentVariable("VATWATCH_PUBLISHED") is { Length: > 0 } folder ? folder : null;

    /// <summary>The published binary, or the one that belongs to this build of the tests.</summary>
    public static string Binary { get; } = Published is null ? FindBinary() : Path.Combine(Published, "vatwatch");

    public static VatWatchProcess Start(params string[] arguments) => StartOther(Binary, new Dictionary<string, string>(), arguments);

    /// <summary>Starts another build of it, such as an installed one, with further variables in its environment.</summary>
    public static VatWatchProcess StartOther(string binary, IReadOnlyDictionary<string, string> environment, params string[] arguments)
    {
        var start = new ProcessStartInfo(binary, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        start.Environment["DOTNET_ROOT"] = Path.GetDirectoryName(Environment.ProcessPath) is { } beside && File.Exists(Path.Combine(beside, "dotnet"))
            ? beside
            : Environment.GetEnvironmentVariable("DOTNET_ROOT") ?? "/usr/share/dotnet";
        // A sentence that a test looks for stands on one line.
        start.Environment["COLUMNS"] = "1000";
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        var running = new VatWatchProcess(new Process { StartInfo = start });
        running._process.OutputDataReceived += (_, line) => running.Keep(running._output, line.Data);
        running._process.ErrorDataReceived += (_, line) => running.Keep(running._errors, line.Data);
        running._process.Start();
        running._process.BeginOutputReadLine();
        running._process.BeginErrorReadLine();
        return running;
    }

    /// <summary>Starts it below another program, such as a tracer, that takes the binary and its arguments behind its own.</summary>
    public static VatWatchProcess StartUnder(string program, string[] before, params string[] arguments) =>
        StartOther(program, new Dictionary<string, string>(), [.. before, Binary, .. arguments]);

    /// <summary>Runs a verb to its end and gives its exit code with what it wrote.</summary>
    public static async Task<(int Code, string Output, string Errors)> RunAsync(TimeSpan limit, params string[] arguments)
    {
        await using var process = Start(arguments);
        var code = await process.ExitCodeAsync(limit);
        return (code, process.Output, process.Errors);
    }

    /// <summary>SIGKILL: no chance to tidy up.</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>SIGTERM, as a service manager does.</summary>
    public async Task<int> StopAsync(TimeSpan limit)
    {
        using var kill = Process.Start("/bin/kill", ["-TERM", _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        return await ExitCodeAsync(limit);
    }

    /// <summary>SIGTERM to the binary below the program it was started with.</summary>
    public async Task<int> StopBelowAsync(TimeSpan limit)
    {
        UnixSignal.Send(BelowId, UnixSignal.Terminate);
        return await ExitCodeAsync(limit);
    }

    /// <summary>The process below the program it was started with.</summary>
    public int BelowId => int.Parse(File.ReadAllText($"/proc/{Id}/task/{Id}/children").Trim().Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);

    public async Task<int> ExitCodeAsync(TimeSpan limit)
    {
        try
        {
            await _process.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(limit, TestContext.Current.CancellationToken);
        }
        catch (TimeoutException)
        {
            Assert.Fail($"vatwatch did not end within {limit}.\n{Output}\n{Errors}");
        }

        _process.WaitForExit();
        return _process.ExitCode;
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync(CancellationToken.None);
        }

        _process.Dispose();
    }

    private void Keep(ConcurrentQueue<string> lines, string? line)
    {
        if (line is not null)
        {
            lines.Enqueue(line);
            TestContext.Current.TestOutputHelper?.WriteLine(line);
        }
    }

    private static string FindBinary()
    {
        var output = new DirectoryInfo(AppContext.BaseDirectory);
        var framework = output.Name;
        var configuration = output.Parent!.Name;
        var root = output;
        while (!File.Exists(Path.Combine(root.FullName, "VatWatch.sln")))
        {
            root = root.Parent ?? throw new InvalidOperationException("these tests run inside a checkout");
        }

        return Path.Combine(root.FullName, "src/VatWatch.Daemon/bin", configuration, framework, "vatwatch");
    }
}
