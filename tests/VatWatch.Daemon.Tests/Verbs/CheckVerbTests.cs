using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Tests.Verbs;

public sealed class CheckVerbTests : IDisposable
{
    private readonly Bench _bench = new();

    [Fact]
    public async Task What_is_good_is_said_in_one_line()
    {
        var (code, output, errors) = await CheckAsync();
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("is good: site weld-yard, 1 vat, 3 probes", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Patterns_that_cannot_tell_answers_apart_are_told_with_what_can()
    {
        var text = await File.ReadAllTextAsync(_bench.Config, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_bench.Config, text.Replace("^ORP=", "^", StringComparison.Ordinal).Replace("^P=", "^", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        var (code, _, errors) = await CheckAsync();
        Assert.Equal(0, code);
        Assert.Equal($"""{_bench.Config}: Probes 'platinum' and 'finished' on bus 'bench' ask different questions and both take the line '45.20', so an answer that comes late could be the other's; """
            + """wanted patterns with what stands around the number ("^T=(?<value>[-+0-9.]+)C$"), one question that gives all values in one line, or a checksum.""" + "\n", errors);
    }

    [Theory]
    [InlineData("/dev/null", "is no folder")]
    [InlineData("/proc/vatwatch", "nothing can be kept there")]
    public async Task A_data_folder_that_cannot_be_one_is_told(string data, string words)
    {
        var text = await File.ReadAllTextAsync(_bench.Config, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_bench.Config, text.Replace("\"unused\"", $"\"{data}\"", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        var (code, _, errors) = await CheckAsync();
        Assert.Equal(78, code);
        Assert.Contains(words, errors, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private async Task<(int Code, string Out, string Error)> CheckAsync()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await VatWatchCommand.RunAsync(["check", "--config", _bench.Config], new VerbConsole(output, error, null));
        return (code, output.ToString(), error.ToString());
    }
}
