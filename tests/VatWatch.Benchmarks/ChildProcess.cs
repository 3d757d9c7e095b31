using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace VatWatch.Benchmarks;

/// <summary>A built program of this repository as a process, with its memory and processor time.</summary>
internal sealed class ChildProcess : IDisposable
{
    private const double TicksPerSecond = 100;
    private readonly Process _process;

    private ChildProcess(Process process) => _process = process;

    /// <summary>Publishes a project for this machine, compiled ahead as it ships, and gives the folder.</summary>
    public static string Publish(string project)
    {
        var folder = Path.Combine(Root, "artifacts/benchmarks", Path.GetFileName(project));
        string[] arguments = ["publish", Path.Combine(Root, project), "-c", "Release", "-r", RuntimeInformation.RuntimeIdentifier, "--self-contained", "false", "-o", folder, "--nologo", "-v", "quiet"];
        using var publish = Process.Start("dotnet", arguments);
        publish.WaitForExit();
        return publish.ExitCode == 0 ? folder : throw new InvalidOperationException($"{project} could not be published");
    }

    public static ChildProcess Start(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment.TryAdd("DOTNET_ROOT", "/usr/share/dotnet");

        // As the service starts it; the empty application has it too.
        start.Environment["MALLOC_ARENA_MAX"] = "1";
        var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} does not start");
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, line) => Console.Error.Write(line.Data is { } text ? text + "\n" : "");
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return new ChildProcess(process);
    }

    /// <summary>The checkout.</summary>
    public static string Root { get; } = FindRoot();

    private static string FindRoot()
    {
        var root = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(root.FullName, "VatWatch.sln")))
        {
            root = root.Parent ?? throw new InvalidOperationException("run inside a checkout");
        }

        return root.FullName;
    }

    /// <summary>Resident memory, MiB.</summary>
    public double ResidentMebibytes => Mebibytes("VmRSS:");

    /// <summary>The part of it that the system cannot drop, MiB: not mapped from a file.</summary>
    public double AnonymousMebibytes => Mebibytes("RssAnon:");

    /// <summary>Processor time used so far, s.</summary>
    public double ProcessorSeconds
    {
        get
        {
            var fields = File.ReadAllText($"/proc/{_process.Id}/stat").Split(')')[^1].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            return (double.Parse(fields[11], CultureInfo.InvariantCulture) + double.Parse(fields[12], CultureInfo.InvariantCulture)) / TicksPerSecond;
        }
    }

    /// <summary>Bytes it had written to disks so far.</summary>
    public long WrittenBytes => long.Parse(
        File.ReadLines($"/proc/{_process.Id}/io").First(line => line.StartsWith("write_bytes:", StringComparison.Ordinal)).Split(' ')[1], CultureInfo.InvariantCulture);

    /// <summary>Milliseconds until a program that does something and ends has ended.</summary>
    public static double TimeToEnd(string program, params string[] arguments) => TimeToEnd(program, TimeSpan.FromSeconds(30), arguments);

    /// <summary>The same of one that may take so long.</summary>
    public static double TimeToEnd(string program, TimeSpan longest, params string[] arguments)
    {
        var began = Stopwatch.GetTimestamp();
        using var child = Start(program, arguments);
        if (!child._process.WaitForExit(longest))
        {
            throw new TimeoutException($"{program} {string.Join(' ', arguments)} has not ended within {longest.TotalSeconds:0} s");
        }

        return child._process.ExitCode == 0
            ? Stopwatch.GetElapsedTime(began).TotalMilliseconds
            : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {child._process.ExitCode}");
    }

    private double Mebibytes(string field) => double.Parse(
        File.ReadLines($"/proc/{_process.Id}/status").First(line => line.StartsWith(field, StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[1],
        CultureInfo.InvariantCulture) / 1024;

    public void Dispose()
    {
        _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
    }
}
