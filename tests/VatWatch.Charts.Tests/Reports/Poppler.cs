using System.Diagnostics;

namespace VatWatch.Charts.Tests.Reports;

/// <summary>poppler's pdfinfo, pdftotext and pdftoppm (Debian package poppler-utils): a PDF as other programs see it.</summary>
internal static class Poppler
{
    /// <summary>Runs one of them and gives what it writes.</summary>
    public static string Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var output = process.StandardOutput.ReadToEnd();
        Assert.True(process.WaitForExit(TimeSpan.FromSeconds(30)), $"{program} did not end");
        Assert.Equal(0, process.ExitCode);
        return output;
    }
}
