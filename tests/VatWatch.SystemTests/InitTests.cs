using System.Diagnostics;
using System.Text;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary><c>vatwatch init</c> as a person meets it: on a terminal, which <c>script</c> (package bsdutils) makes.</summary>
public sealed class InitTests : IDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);
    private readonly string _folder = Directory.CreateTempSubdirectory("init-").FullName;

    private string Written => Path.Combine(_folder, "first.json");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task On_a_terminal_it_asks_writes_and_its_file_passes_check()
    {
        var said = await TypeAsync("si\n", "weld-yard\n", "Red vat\n", "forty\n", "150 L\n", "protein\n", "\n", "temperature on simulated\n", "\n");
        Assert.Contains("'forty' will not do", said, StringComparison.Ordinal);
        Assert.Contains("passes `vatwatch check`", said, StringComparison.Ordinal);
        var (code, output, errors) = await VatWatchProcess.RunAsync(Limit, "check", "--config", Written);
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("site weld-yard, 1 vat, 1 probe, 1 bus", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Control_D_in_the_middle_leaves_nothing_behind()
    {
        var said = await TypeAsync("si\n", "weld-yard\n", "\u0004");
        Assert.Contains("nothing was written", said, StringComparison.Ordinal);
        Assert.False(File.Exists(Written));
    }

    [Fact]
    public async Task Without_a_terminal_it_says_which_flag_is_missing()
    {
        var run = await ToolRun.RunAsync("sh", ["-c", $"'{VatWatchProcess.Binary}' init --site weld-yard --out '{Written}' </dev/null"]);
        Assert.Equal(64, run.ExitCode);
        Assert.Contains("--vat is missing and nobody is at the terminal", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Written));
    }

    /// <summary>Types each line once its question stands there, as a person does.</summary>
    private async Task<string> TypeAsync(params string[] lines)
    {
        var start = new ProcessStartInfo("script", ["-qec", $"'{VatWatchProcess.Binary}' init --out '{Written}'", "/dev/null"]) { RedirectStandardInput = true, RedirectStandardOutput = true };
        using var process = Process.Start(start) ?? throw new InvalidOperationException("script did not start");
        var (screen, read) = (new StringBuilder(), 0);
        var reading = ReadAsync();
        foreach (var line in lines)
        {
            await Eventually.TrueAsync(() => Screen() is var shown && shown.Length > read && shown.EndsWith(": ", StringComparison.Ordinal), $"a question before '{line}'");
            read = Screen().Length;
            await process.StandardInput.WriteAsync(line);
            await process.StandardInput.FlushAsync(TestContext.Current.CancellationToken);
        }

        using var limit = new CancellationTokenSource(Limit);
        await process.WaitForExitAsync(limit.Token);
        await reading;
        return Screen();

        async Task ReadAsync()
        {
            var some = new char[256];
            while (await process.StandardOutput.ReadAsync(some) is > 0 and var count)
            {
                lock (screen)
                {
                    screen.Append(some, 0, count);
                }
            }
        }

        string Screen()
        {
            lock (screen)
            {
                return screen.ToString();
            }
        }
    }
}
