using System.Diagnostics;

namespace VatWatch.Testing;

/// <summary>Runs a program of the machine to its end, with a limit of 30 s.</summary>
/// <param name="ExitCode">Its exit code.</param>
/// <param name="Output">Standard output.</param>
/// <param name="Error">Standard error.</param>
internal sealed record ToolRun(int ExitCode, string Output, string Error)
{
    /// <summary>Runs it.</summary>
    public static async Task<ToolRun> RunAsync(string program, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true };
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        try
        {
            var output = process.StandardOutput.ReadToEndAsync(limit.Token);
            var error = process.StandardError.ReadToEndAsync(limit.Token);
            await process.WaitForExitAsync(limit.Token);
            return new(process.ExitCode, await output, await error);
        }
        catch (OperationCanceledException)
        {
            process.Kill();
            throw new TimeoutException($"{program} did not end within 30 s");
        }
    }

    /// <summary>Runs it and throws when it fails.</summary>
    public static async Task<ToolRun> RequireAsync(string program, IEnumerable<string> arguments)
    {
        var run = await RunAsync(program, arguments);
        return run.ExitCode == 0 ? run : throw new InvalidOperationException($"{program} failed with {run.ExitCode}: {run.Error}{run.Output}");
    }
}
