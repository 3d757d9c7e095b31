using System.Text.RegularExpressions;
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

    [Fact]
    public async Task A_pattern_that_takes_any_number_is_told()
    {
        var text = await File.ReadAllTextAsync(_bench.Config, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_bench.Config, Regex.Replace(text, @"\^ORP=(\(\?<value>[^)]*\))\$", "$1"), TestContext.Current.CancellationToken);
        var (code, _, errors) = await CheckAsync();
        Assert.Equal(0, code);
        Assert.StartsWith($"{_bench.Config}: Probe 'platinum' on bus 'bench' takes the number of any line that has one, also of a status or a count; wanted a pattern with what stands around the number", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_meter_in_watts_wants_the_rated_power_of_which_they_are_a_share()
    {
        var text = await File.ReadAllTextAsync(_bench.Config, TestContext.Current.CancellationToken);
        var metered = text.Replace("\"finished\", \"measures\": \"ph\"", "\"finished\", \"measures\": \"heater\"", StringComparison.Ordinal)
            .Replace("\"unit\": \"pH\"", "\"unit\": \"W\"", StringComparison.Ordinal);
        await File.WriteAllTextAsync(_bench.Config, metered, TestContext.Current.CancellationToken);
        var (code, _, errors) = await CheckAsync();
        Assert.Equal(78, code);
        Assert.Contains("vats[0].heater is missing, and probe \"finished\" gives W; wanted the rated power", errors, StringComparison.Ordinal);

        await File.WriteAllTextAsync(_bench.Config, metered.Replace("\"volume\"", "\"heater\": \"1 kW\", \"volume\"", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        Assert.Equal(0, (await CheckAsync()).Code);
    }

    [Fact]
    public async Task An_ORP_probe_is_judged_by_the_usual_marks_where_none_are_set_and_a_pH_probe_without_a_band_is_told()
    {
        var text = await File.ReadAllTextAsync(_bench.Config, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_bench.Config, Regex.Replace(text, "\"(orp|ph)\": \\{[^}]*\\},?", ""), TestContext.Current.CancellationToken);
        var (code, _, errors) = await CheckAsync();
        Assert.Equal(0, code);
        Assert.Contains("reads ORP and has no \"orp\": it is judged against Ag/AgCl 3 M KCl, weak above -660 mV, oxidised above -580 mV.", errors, StringComparison.Ordinal);
        Assert.Contains("reads pH and has no \"ph\"", errors, StringComparison.Ordinal);
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
