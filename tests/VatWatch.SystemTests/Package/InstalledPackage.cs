using System.Diagnostics;
using System.Text;

namespace VatWatch.SystemTests.Package;

/// <summary>
/// A folder into which a real dpkg installs the package: its own package database, its own users, and the package's scripts working on it through
/// DPKG_ROOT, as when an image for a board is made. Needs root, as dpkg does; <c>sudo -n</c> is used where the tests do not run as root.
/// </summary>
internal sealed class InstalledPackage : IAsyncDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(10);

    public InstalledPackage()
    {
        foreach (var folder in (string[])["var/lib/dpkg/info", "var/lib/dpkg/updates", "var/lib/dpkg/triggers", "var/log", "etc"])
        {
            Directory.CreateDirectory(At(folder));
        }

        File.WriteAllText(At("var/lib/dpkg/status"), "");
        File.WriteAllText(At("etc/passwd"), "root:x:0:0:root:/root:/bin/sh\n");
        File.WriteAllText(At("etc/group"), "root:x:0:\ndialout:x:20:\n");
    }

    /// <summary>What stands for <c>/</c>.</summary>
    public string Root { get; } = Directory.CreateTempSubdirectory("installed-").FullName;

    /// <summary>A path below it.</summary>
    public string At(string path) => Path.Combine(Root, path);

    /// <summary>Runs dpkg on it.</summary>
    public Task<string> DpkgAsync(params string[] arguments) => RunAsync(
        "dpkg", [$"--instdir={Root}", $"--admindir={At("var/lib/dpkg")}", $"--log={At("var/log/dpkg.log")}", "--force-script-chrootless", "--force-depends", "--force-confold", .. arguments]);

    /// <summary>Runs a program that takes its time, as root, and gives what it wrote; throws when it fails.</summary>
    public static async Task<string> RunAsync(string program, IReadOnlyList<string> arguments)
    {
        string[] line = Environment.UserName == "root" ? [program, .. arguments] : ["sudo", "-n", program, .. arguments];
        var start = new ProcessStartInfo(line[0], line[1..]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["DEBIAN_FRONTEND"] = "noninteractive";
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
        var said = new StringBuilder();
        process.OutputDataReceived += Note;
        process.ErrorDataReceived += Note;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        using var limit = new CancellationTokenSource(Limit);
        try
        {
            await process.WaitForExitAsync(limit.Token);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"{program} did not end within {Limit}: {said}");
        }

        return process.ExitCode == 0 ? said.ToString() : throw new InvalidOperationException($"{program} failed with {process.ExitCode}: {said}");

        void Note(object sender, DataReceivedEventArgs received)
        {
            lock (said)
            {
                said.AppendLine(received.Data);
            }
        }
    }

    public async ValueTask DisposeAsync() => await RunAsync("rm", ["-rf", Root]);
}
