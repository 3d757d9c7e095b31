using System.Runtime.Versioning;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary>What somebody is told who may not look into the folder of the service. Root may look everywhere, so the verb is run as nobody then (<c>setpriv</c>, package util-linux).</summary>
[SupportedOSPlatform("linux")]
public sealed class OtherUserTests : IDisposable
{
    private const string Nobody = "65534";
    private readonly string _folder = Directory.CreateTempSubdirectory("other-").FullName;

    public OtherUserTests()
    {
        File.WriteAllText(Path.Combine(_folder, "vatwatch.db"), "");
        File.SetUnixFileMode(_folder, UnixFileMode.None);
    }

    public void Dispose()
    {
        File.SetUnixFileMode(_folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [InlineData("verify")]
    [InlineData("alarms")]
    [InlineData("report --vat madder-lane --out /dev/null.png")]
    public async Task A_folder_that_may_not_be_looked_into_is_not_said_to_be_empty(string verb)
    {
        string[] words = [.. verb.Split(' '), "--data", _folder, "--config", SourceTree.At("config", "vatwatch.json")];
        string[] line = Environment.IsPrivilegedProcess
            ? ["setpriv", "--reuid", Nobody, "--regid", Nobody, "--clear-groups", "env", "DOTNET_ROOT=/usr/share/dotnet", VatWatchProcess.Binary, .. words]
            : [VatWatchProcess.Binary, .. words];
        var run = await ToolRun.RunAsync(line[0], line[1..]);
        Assert.Equal(1, run.ExitCode);
        Assert.Contains("this user may not look into the folder; wanted the", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("there is no", run.Error, StringComparison.Ordinal);
    }
}
