using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary>What somebody sees who starts it wrongly: an exit code, one sentence, no stack trace.</summary>
public sealed class UsageTests
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(30);

    [Theory]
    [InlineData("--help", "run")]
    [InlineData("run --help", "--data")]
    [InlineData("check --help", "--config")]
    [InlineData("read --help", "--json")]
    [InlineData("report --help", "--out")]
    [InlineData("--version", "0.1")]
    public async Task Help_and_version_succeed(string arguments, string mentions)
    {
        var (code, output, errors) = await VatWatchProcess.RunAsync(Limit, arguments.Split(' '));
        Assert.Equal(0, code);
        Assert.Contains(mentions, output, StringComparison.Ordinal);
        Assert.Equal("", errors);
    }

    [Fact]
    public async Task The_command_of_the_README_takes_the_sample_of_its_folder()
    {
        var run = await ToolRun.RequireAsync("dotnet", ["run", "--no-build", "-c", "Release", "--project", SourceTree.At("src", "VatWatch.Daemon"), "--", "check"]);
        Assert.StartsWith("config/vatwatch.json is good", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("wach")]
    [InlineData("run --speed 3")]
    [InlineData("report --vat madder-lane")]
    [InlineData("report --out x.png --vat nowhere")]
    public async Task Wrong_usage_is_64_with_a_sentence_on_standard_error(string arguments)
    {
        var (code, output, errors) = await VatWatchProcess.RunAsync(Limit, arguments.Split(' '));
        Assert.Equal(64, code);
        Assert.Equal("", output);
        Assert.StartsWith("vatwatch: ", errors, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_configuration_is_78_and_names_the_file()
    {
        var (code, _, errors) = await VatWatchProcess.RunAsync(Limit, "check", "--config", "/nowhere/vats.json");
        Assert.Equal(78, code);
        Assert.Contains("/nowhere/vats.json", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task All_faults_of_a_configuration_are_told_at_once_within_two_seconds()
    {
        using var studio = new Studio();
        studio.WriteBenchConfig("/dev/null", """{ "broker": "builtin", "colour": "blue" }""");
        File.WriteAllText(studio.Config, File.ReadAllText(studio.Config)
            .Replace("\"100 °F\"", "\"100\"", StringComparison.Ordinal)
            .Replace("\"60 L\"", "\"60 lightyears\"", StringComparison.Ordinal));
        await VatWatchProcess.RunAsync(Limit, "--version");
        var watch = Stopwatch.StartNew();
        var (code, _, errors) = await VatWatchProcess.RunAsync(Limit, "run", "--config", studio.Config);
        Assert.Equal(78, code);
        Assert.Contains("vats[0].temperature.low is \"100\"; wanted a temperature with its unit", errors, StringComparison.Ordinal);
        Assert.Contains("vats[0].volume is \"60 lightyears\"; wanted a volume with its unit", errors, StringComparison.Ordinal);
        Assert.Contains("mqtt.colour is an unknown key", errors, StringComparison.Ordinal);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(10), $"took {watch.Elapsed}");
    }

    [Fact]
    public async Task A_second_instance_on_the_same_folder_is_refused_with_its_holder()
    {
        using var studio = new Studio();
        studio.WriteBenchConfig("/nowhere/tty", BuiltinOn(FreePort.Next()));
        await using var first = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => first.Output.Contains("Watching", StringComparison.Ordinal), "the first runs", Limit);
        using var other = new Studio();
        other.WriteBenchConfig("/nowhere/tty", BuiltinOn(FreePort.Next()));
        var (code, _, errors) = await VatWatchProcess.RunAsync(Limit, "run", "--config", other.Config, "--data", studio.Data);
        Assert.Equal(1, code);
        Assert.Contains(studio.Data, errors, StringComparison.Ordinal);
        Assert.Contains(first.Id.ToString(CultureInfo.InvariantCulture), errors, StringComparison.Ordinal);
        Assert.Equal(0, await first.StopAsync(Limit));
    }

    [Fact]
    public async Task A_busy_page_port_and_a_busy_broker_port_are_told_with_their_address_and_taken_up_once_they_are_free()
    {
        using var page = new TcpListener(IPAddress.Loopback, 0);
        using var broker = new TcpListener(IPAddress.Loopback, 0);
        page.Start();
        broker.Start();
        var (pagePort, brokerPort) = (((IPEndPoint)page.LocalEndpoint).Port, ((IPEndPoint)broker.LocalEndpoint).Port);
        using var studio = new Studio();
        studio.WriteBenchConfig("/nowhere/tty", BuiltinOn(brokerPort));
        var url = $"http://127.0.0.1:{pagePort}";
        File.WriteAllText(studio.Config, File.ReadAllText(studio.Config).Replace(studio.Url, url, StringComparison.Ordinal));
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => watch.Output.Contains("Watching", StringComparison.Ordinal), "it watches", Limit);
        Assert.Contains($"Cannot serve the pages at {url}: another program listens there already", watch.Output, StringComparison.Ordinal);
        Assert.Contains($"127.0.0.1:{brokerPort} is in use by another program", watch.Output, StringComparison.Ordinal);
        page.Stop();
        broker.Stop();
        await Eventually.TrueAsync(() => watch.Output.Contains($"broker on 127.0.0.1:{brokerPort}: connected", StringComparison.Ordinal), "the broker is taken up", Limit);
        await Eventually.TrueAsync(() => watch.Output.Contains($"served at {url} from here on", StringComparison.Ordinal), "the pages are taken up", Limit);
        using var browser = new HttpClient { Timeout = Limit };
        using var answer = await browser.GetAsync(new Uri($"{url}/health/live"), TestContext.Current.CancellationToken);
        Assert.True(answer.IsSuccessStatusCode);
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(brokerPort), "vatwatch/#");
        Assert.Equal(0, await watch.StopAsync(Limit));
        Assert.DoesNotContain("   at ", watch.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_does_not_exist_is_not_fatal_and_raises_one_alarm_that_speaks_for_its_probes()
    {
        using var studio = new Studio();
        var mqtt = FreePort.Next();
        studio.WriteBenchConfig("/nowhere/tty", BuiltinOn(mqtt));
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => watch.Output.Contains("Watching", StringComparison.Ordinal), "it runs", Limit);
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(mqtt), "vatwatch/#");
        var lost = await phone.WaitForAsync(
            "vatwatch/test-studio/daemon/alarm/bus-lost.bench",
            message => message.Payload.Contains("\"unacknowledged\"", StringComparison.Ordinal),
            TimeSpan.FromSeconds(60));
        Assert.Contains("/nowhere/tty", lost.Payload, StringComparison.Ordinal);
        Assert.Contains("liquor of Weld Yard vat", lost.Payload, StringComparison.Ordinal);
        Assert.Contains("\"critical\"", lost.Payload, StringComparison.Ordinal);
        // Past the delays of a probe's own silence and fault, 15 s and 10 s.
        await Task.Delay(TimeSpan.FromSeconds(15), TestContext.Current.CancellationToken);
        Assert.DoesNotContain(phone.Messages, message => message.Topic.Contains("/alarm/probe-", StringComparison.Ordinal) && message.Payload.Contains("\"unacknowledged\"", StringComparison.Ordinal));
        Assert.False(watch.HasExited);
        Assert.Equal(0, await watch.StopAsync(Limit));
    }

    private static string BuiltinOn(int port) => string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{port}}" }""");
}
