using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Verbs;

public sealed class PasswordVerbTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("password-test-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_password_becomes_a_hash_that_knows_it_and_does_not_hold_it()
    {
        var (code, output, _) = await RunAsync(["woad and weld"]);

        Assert.Equal(ExitCode.Success, code);
        Assert.True(PasswordHash.TryParse(output, out var hash));
        Assert.True(hash.Matches("woad and weld"));
        Assert.DoesNotContain("woad", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_file_may_be_read_by_its_owner_only_even_when_it_was_there_before()
    {
        var file = Path.Combine(_folder, "operators");
        File.WriteAllText(file, "old");

        var (code, output, _) = await RunAsync(["woad and weld"], "--out", file);

        Assert.Equal(ExitCode.Success, code);
        Assert.Equal("", output);
        Assert.True(PasswordHash.TryParse(File.ReadAllText(file), out _));
        Assert.True(OperatingSystem.IsWindows() || File.GetUnixFileMode(file) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
    }

    [Theory]
    [InlineData("too short")]
    [InlineData(null)]
    public async Task A_short_password_or_none_writes_nothing(string? password)
    {
        var file = Path.Combine(_folder, "operators");

        var (code, _, error) = await RunAsync([password], "--out", file);

        Assert.Equal(ExitCode.WrongUsage, code);
        Assert.False(File.Exists(file));
        Assert.DoesNotContain("too short", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_token_is_shown_once_and_its_line_added_to_the_file()
    {
        var file = Path.Combine(_folder, "tokens");
        var (_, first, _) = await RunAsync([], "--token", "press", "--out", file);
        var (_, second, _) = await RunAsync([], "--token", "switchboard", "--role", "operator", "--out", file);

        var lines = File.ReadAllLines(file).Select(line => ApiToken.TryParse(line, out var token) ? token : throw new InvalidOperationException(line)).ToList();
        Assert.Equal([("press", Role.Viewer), ("switchboard", Role.Operator)], lines.Select(line => (line.Name, line.Role)));
        Assert.True(lines[0].Matches(first.Trim()));
        Assert.True(lines[1].Matches(second.Trim()));
        Assert.False(lines[1].Matches(first.Trim()));
    }

    [Fact]
    public async Task A_name_with_a_blank_or_a_role_without_a_token_is_wrong_usage()
    {
        Assert.Equal(ExitCode.WrongUsage, (await RunAsync([], "--token", "the press")).Code);
        Assert.Equal(ExitCode.WrongUsage, (await RunAsync(["woad and weld"], "--role", "viewer")).Code);
    }

    private static async Task<(int Code, string Out, string Error)> RunAsync(string?[] answers, params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var said = new Queue<string?>(answers);
        var command = PasswordVerb.Create(new(output, error), (_, _) => said.Dequeue());
        var code = await command.Parse(arguments).InvokeAsync(cancellationToken: TestContext.Current.CancellationToken);
        return (code, output.ToString(), error.ToString());
    }
}
