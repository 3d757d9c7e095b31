using System.Globalization;
using System.Text;
using System.Text.Json;
using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Tests.Verbs.Replay;

/// <summary>The verb as a person and another program meet it, on a night that is written down here: a heater that does not stop.</summary>
public sealed class ReplayVerbTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("replay-test-").FullName;

    public ReplayVerbTests()
    {
        File.WriteAllText(Config, Configuration("49 °C"));
        File.WriteAllText(Log, Night());
    }

    private string Config => Path.Combine(_folder, "vatwatch.json");

    private string Log => Path.Combine(_folder, "night.csv");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>9 K/h from 30 °C reaches 49 °C after 2 h 6 min 40 s; the alarm comes with the first reading at or above it and 10 s of on-delay.</summary>
    [Fact]
    public async Task Json_has_one_line_a_change_with_its_time()
    {
        var (code, output, error) = await Run("--json");
        Assert.Equal((0, ""), (code, error));
        var lines = output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonDocument.Parse(line).RootElement).ToList();
        var raised = lines.First(line => line.GetProperty("alarm").GetString() == "overheat");
        var time = DateTimeOffset.Parse(raised.GetProperty("time").GetString()!, CultureInfo.InvariantCulture);
        Assert.InRange((time - Start).TotalSeconds, 7600, 7600 + 30);
        Assert.InRange(raised.GetProperty("value").GetDouble(), 48.9, 49.2);
        Assert.Equal("unacknowledged", raised.GetProperty("state").GetString());
        Assert.Distinct(lines.Select(line => (line.GetProperty("alarm").GetString(), line.GetProperty("state").GetString(), line.GetProperty("text").GetString())));
    }

    [Fact]
    public async Task The_same_input_gives_the_same_output_byte_for_byte()
    {
        var first = Path.Combine(_folder, "first");
        var second = Path.Combine(_folder, "second");
        var one = await Run("--out", first);
        var other = await Run("--out", second);
        Assert.Equal(one, other);
        Assert.Equal(["alarms.csv", "conditions.csv", "report.html"], Directory.GetFiles(first).Select(Path.GetFileName).Order());
        Assert.All(Directory.GetFiles(first), file => Assert.Equal(File.ReadAllBytes(file), File.ReadAllBytes(Path.Combine(second, Path.GetFileName(file)))));
    }

    [Fact]
    public async Task What_the_log_book_held_is_replayed_with_the_readings_and_a_bad_line_is_told()
    {
        var entries = Path.Combine(_folder, "entries.csv");
        await File.WriteAllTextAsync(entries, "time,entry,value\n2031-03-14T18:00:00Z,heater-on,ready 18:10\n2031-03-14T18:01:00Z,boil,\n", TestContext.Current.CancellationToken);
        var (code, output, error) = await Run("--entries", entries);
        Assert.Equal((0, true), (code, error.StartsWith($"{entries}: line 3: entry is \"boil\"; wanted one of", StringComparison.Ordinal)));
        Assert.Contains("ready-late", output, StringComparison.Ordinal);
        Assert.DoesNotContain("ready-late", (await Run()).Output, StringComparison.Ordinal);
        Assert.Equal(1, (await Run("--entries", entries, "--strict")).Code);
        Assert.Contains("there.csv", (await Run("--entries", Path.Combine(_folder, "not", "there.csv"))).Error, StringComparison.Ordinal);
        Assert.Contains("wanted a line that names the columns time, entry and value", (await Run("--entries", Log)).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_limit_is_compared_in_plain_sentences()
    {
        var other = Path.Combine(_folder, "lower.json");
        await File.WriteAllTextAsync(other, Configuration("48 °C"), TestContext.Current.CancellationToken);
        var (code, output, _) = await Run("--against", other);
        Assert.Equal(0, code);
        Assert.Matches(@"overheat: with .*vatwatch\.json you would have been told at 2031-03-14 20:06:\d\d UTC, with .*lower\.json at 2031-03-14 20:00:\d\d UTC, 6 min earlier\.", output);
    }

    [Fact]
    public async Task Bad_lines_are_listed_and_do_not_stop_it_unless_strict()
    {
        var lines = Night().Split('\n').ToList();
        lines.Insert(3, "yesterday,liquor,30");
        lines.Insert(5, "2031-03-14T18:00:15Z,kettle,30");
        await File.WriteAllTextAsync(Log, string.Join('\n', lines), TestContext.Current.CancellationToken);

        var lenient = await Run();
        Assert.Equal(0, lenient.Code);
        Assert.Contains("night.csv: line 4: time is \"yesterday\"", lenient.Error, StringComparison.Ordinal);
        Assert.Contains("night.csv: line 6: probe is \"kettle\"; wanted one of vat 'north-tub': liquor", lenient.Error, StringComparison.Ordinal);
        Assert.Contains("alarms raised.", lenient.Output, StringComparison.Ordinal);

        var strict = await Run("--strict");
        Assert.Equal(1, strict.Code);
        Assert.DoesNotContain("kettle", strict.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--vat", "nowhere", 64, "--vat is 'nowhere'; the configuration of --config has 'north-tub'")]
    [InlineData("--config", "/nowhere/at-all.json", 78, "at-all.json")]
    [InlineData("file", "/nowhere/night.csv", 1, "night.csv")]
    public async Task What_is_not_there_is_named(string option, string value, int code, string says)
    {
        var (seen, _, error) = await RunWith(option == "file" ? value : Log, option == "vat" ? value : option == "--vat" ? value : "north-tub", option == "--config" ? value : Config);
        Assert.Equal(code, seen);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_log_of_nothing_is_a_failure()
    {
        await File.WriteAllTextAsync(Log, "time,probe,value\n", TestContext.Current.CancellationToken);
        var (code, _, error) = await Run();
        Assert.Equal(1, code);
        Assert.Contains("holds no reading of vat 'north-tub'", error, StringComparison.Ordinal);
    }

    private static readonly DateTimeOffset Start = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    private Task<(int Code, string Output, string Error)> Run(params string[] more) => RunWith(Log, "north-tub", Config, more);

    private static async Task<(int Code, string Output, string Error)> RunWith(string file, string vat, string config, params string[] more)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await VatWatchCommand.RunAsync(["replay", file, "--vat", vat, "--config", config, .. more], new VerbConsole(output, error));
        return (code, output.ToString(), error.ToString());
    }

    private static string Night()
    {
        var text = new StringBuilder("time,probe,value\n");
        for (var seconds = 0; seconds < 3 * 3600; seconds += 5)
        {
            text.Append(CultureInfo.InvariantCulture, $"{Start.AddSeconds(seconds):yyyy-MM-dd'T'HH:mm:ss'Z'},liquor,{30 + 9.0 * seconds / 3600 + 0.02 * (seconds / 5 % 3 - 1):0.00}\n");
        }

        return text.ToString();
    }

    private static string Configuration(string limit) => $$"""
        {
          "site": "weld-yard",
          "display": "si",
          "buses": { "bench": { "kind": "serial", "port": "/dev/vatwatch/none" } },
          "vats": [ {
            "id": "north-tub", "name": "North tub", "volume": "60 L", "fibre": "cellulose", "reducer": "fructose",
            "temperature": { "low": "40 °C", "high": "47 °C", "limit": "{{limit}}" },
            "probes": [ { "id": "liquor", "measures": "temperature", "bus": "bench", "driver": "text-line", "every": "5 s",
              "settings": { "ask": "T?\\r", "pattern": "^T=(?<value>[-+0-9.]+)$", "unit": "°C" } } ]
          } ]
        }
        """;
}
