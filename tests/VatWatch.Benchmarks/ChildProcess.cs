using System.Diagnostics;
using System.Globalization;

namespace VatWatch.Benchmarks;

/// <summary>A built program of this repository as a process, with its memory and processor time.</summary>
internal sealed class ChildProcess : IDisposable
{
    private static readonly double TicksPerSecond = 100;
    private readonly Process _process;

    private ChildProcess(Process process) => _process = process;

    public static ChildProcess Start(string project, string program, params string[] arguments)
    {
        var root = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(root.FullName, "VatWatch.sln")))
        {
            root = root.Parent ?? throw new InvalidOperationException("run inside a checkout");
        }

        var path = Path.Combine(root.FullName, project, "bin/Release/net10.0", program);
        var start = new ProcessStartInfo(path, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment.TryAdd("DOTNET_ROOT", "/usr/share/dotnet");
        var process = Process.Start(start) ?? throw new InvalidOperationException($"{path} does not start");
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, line) => Console.Error.Write(line.Data is { } text ? text + "\n" : "");
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return new ChildProcess(process);
    }

    /// <summary>Resident memory, MiB.</summary>
    public double ResidentMebibytes => double.Parse(
        File.ReadLines($"/proc/{_process.Id}/status").First(line => line.StartsWith("VmRSS:", StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[1],
        CultureInfo.InvariantCulture) / 1024;

    /// <summary>Processor time used so far, s.</summary>
    public double ProcessorSeconds
    {
        get
        {
            var fields = File.ReadAllText($"/proc/{_process.Id}/stat").Split(')')[^1].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            return (double.Parse(fields[11], CultureInfo.InvariantCulture) + double.Parse(fields[12], CultureInfo.InvariantCulture)) / TicksPerSecond;
        }
    }

    public void Dispose()
    {
        _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
    }
}
