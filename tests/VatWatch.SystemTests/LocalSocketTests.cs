using System.Runtime.Versioning;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary>Verbs that ask the running daemon over the socket in its data folder: kills, several daemons, rights and long paths, through the built binary.</summary>
[SupportedOSPlatform("linux")]
public sealed class LocalSocketTests
{
    private const string Nobody = "65534";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task After_a_kill_and_beside_a_second_daemon_the_verb_reaches_the_one_that_runs()
    {
        using var studio = new Studio();
        studio.WriteBenchConfig("/nowhere/tty", $$"""{ "broker": "mqtt://127.0.0.1:{{FreePort.Next()}}" }""");
        await using (var first = await WatchingAsync(studio.Config))
        {
            await first.KillAsync();
        }

        Assert.True(File.Exists(Socket(studio)), "a kill leaves the socket behind");
        Assert.Contains("no VatWatch runs on the data folder", (await NoteAsync(studio, "alone")).Errors, StringComparison.Ordinal);

        await using var watch = await WatchingAsync(studio.Config);
        var (code, output, errors) = await NoteAsync(studio, "after a kill");
        Assert.Equal((0, "The note is in the journal.", ""), (code, output.Trim(), errors));

        var second = await VatWatchProcess.RunAsync(Patience, "run", "--config", studio.Config);
        Assert.Equal(1, second.Code);
        Assert.Contains("is using it", second.Errors, StringComparison.Ordinal);
        Assert.Equal(0, (await NoteAsync(studio, "beside a second one")).Code);

        Assert.Equal(0, await watch.StopAsync(Patience));
        Assert.False(File.Exists(Socket(studio)), "a stop takes the socket away");
    }

    [Fact]
    public async Task Who_may_not_write_to_the_socket_is_told_so_and_changes_nothing()
    {
        using var studio = new Studio();
        studio.WriteBenchConfig("/nowhere/tty", $$"""{ "broker": "mqtt://127.0.0.1:{{FreePort.Next()}}" }""");
        await using var watch = await WatchingAsync(studio.Config);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.GroupWrite, File.GetUnixFileMode(Socket(studio)));

        // An owner who lets everybody look into the folder still lets nobody write to the socket.
        File.SetUnixFileMode(studio.Folder, (UnixFileMode)0b111_101_101);
        File.SetUnixFileMode(studio.Data, (UnixFileMode)0b111_101_101);
        File.SetUnixFileMode(Path.Combine(studio.Data, "vatwatch.lock"), (UnixFileMode)0b110_100_100);

        // Only root can be somebody else; anybody else shuts the socket to himself.
        string[] line = Environment.IsPrivilegedProcess
            ? ["setpriv", "--reuid", Nobody, "--regid", Nobody, "--clear-groups", "env", "DOTNET_ROOT=/usr/share/dotnet", VatWatchProcess.Binary, .. Note(studio, "from outside")]
            : [VatWatchProcess.Binary, .. Note(studio, "from outside")];
        if (!Environment.IsPrivilegedProcess)
        {
            File.SetUnixFileMode(Socket(studio), UnixFileMode.None);
        }

        var stranger = await ToolRun.RunAsync(line[0], line[1..]);

        Assert.Equal(1, stranger.ExitCode);
        Assert.Contains($"this user may not write to '{Socket(studio)}'", stranger.Error, StringComparison.Ordinal);
        var (_, journal, _) = await VatWatchProcess.RunAsync(Patience, "alarms", "--journal", "--config", studio.Config);
        Assert.DoesNotContain("from outside", journal, StringComparison.Ordinal);
        Assert.Equal(0, await watch.StopAsync(Patience));
    }

    [Fact]
    public async Task A_folder_too_deep_for_a_socket_is_watched_all_the_same()
    {
        using var studio = new Studio();
        studio.WriteBenchConfig("/nowhere/tty", $$"""{ "broker": "mqtt://127.0.0.1:{{FreePort.Next()}}" }""");
        var deep = Path.Combine(studio.Folder, new string('d', 120));
        await using var watch = await WatchingAsync(studio.Config, "--data", deep);
        Assert.Contains("a socket's address holds 107", watch.Output, StringComparison.Ordinal);
        var (code, _, errors) = await VatWatchProcess.RunAsync(Patience, [.. Note(studio, "too deep"), "--data", deep]);
        Assert.Equal(1, code);
        Assert.Contains("a socket's address holds 107; wanted a data folder with a shorter path.", errors, StringComparison.Ordinal);
        Assert.Equal(0, await watch.StopAsync(Patience));
    }

    private static string Socket(Studio studio) => Path.Combine(studio.Data, "vatwatch.sock");

    private static async Task<VatWatchProcess> WatchingAsync(string config, params string[] more)
    {
        var watch = VatWatchProcess.Start(["run", "--config", config, .. more]);
        await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching test-studio", StringComparison.Ordinal), "it watches", Patience);
        return watch;
    }

    private static string[] Note(Studio studio, string text) => ["alarms", "note", "--config", studio.Config, "--vat", "weld-yard", "--by", "Ada", "--text", text];

    private static Task<(int Code, string Output, string Errors)> NoteAsync(Studio studio, string text) => VatWatchProcess.RunAsync(Patience, Note(studio, text));
}
