using VatWatch.Charts.Reports;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary>Says in a sentence why a report could not be written.</summary>
internal static class ReportFile
{
    /// <summary>Runs what writes a file and waits for nothing.</summary>
    public static Task<int> WriteAsync(string file, VerbConsole console, Func<int> write) => WriteAsync(file, console, () => Task.FromResult(write()));

    /// <summary>Runs what writes a file.</summary>
    public static async Task<int> WriteAsync(string file, VerbConsole console, Func<Task<int>> write)
    {
        try
        {
            return await write();
        }
        catch (UnknownReportFormatException e)
        {
            return console.Fail(ExitCode.WrongUsage, e.Message);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return console.Fail(ExitCode.Failure, $"'{file}' could not be written: {e.Message}");
        }
    }
}
