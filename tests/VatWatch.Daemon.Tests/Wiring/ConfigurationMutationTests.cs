using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using VatWatch.Daemon.Wiring;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Wiring;

/// <summary>The sample configuration, spoilt at every place in turn: each time the fault names that place.</summary>
public sealed class ConfigurationMutationTests : IDisposable
{
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };
    private readonly string _file = Path.GetTempFileName();

    public void Dispose() => File.Delete(_file);

    [Fact]
    public void The_sample_itself_is_good() => Assert.Empty(Faults(Sample()));

    [Fact]
    public void A_misspelt_key_is_named_wherever_it_stands()
    {
        foreach (var (path, _) in Places(Sample()))
        {
            var spoilt = Sample();
            var (owner, key) = Find(spoilt, path);
            var value = owner[key]!.DeepClone();
            owner.Remove(key);
            owner["x" + key] = value;

            // Under "buses" any name is a key; there the probes that name it tell.
            var named = path.StartsWith("buses.", StringComparison.Ordinal) && path.Count(c => c == '.') == 1 ? "bus" : "x" + key;
            Assert.True(Faults(spoilt).Any(fault => fault.Path == path || fault.Path.EndsWith(named, StringComparison.Ordinal)), $"{path} misspelt was not told");
        }
    }

    [Theory]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("-987654321")]
    [InlineData("\"\"")]
    [InlineData("\"no such thing\"")]
    [InlineData("\"1e999 °F\"")]
    public void A_value_of_the_wrong_kind_is_told_with_its_place_or_what_it_holds(string wrong)
    {
        // Free texts take any text, and a section whose keys are all optional may be empty.
        foreach (var (path, value) in Places(Sample()))
        {
            if ((wrong[0] == '"' && path is "$schema" or "vats[0].name" or "data" or "vats[0].orp.reference") || (wrong == "{}" && path is "web" or "mqtt"))
            {
                continue;
            }

            var spoilt = Sample();
            var (owner, key) = Find(spoilt, path);
            owner[key] = JsonNode.Parse(wrong);
            var faults = Faults(spoilt);
            Assert.True(
                faults.Any(fault => fault.Path.StartsWith(path, StringComparison.Ordinal) || fault.Path.EndsWith("bus", StringComparison.Ordinal)),
                $"{path}: {wrong} instead of {value} was not told; faults: {string.Join(" | ", faults)}");
        }
    }

    [Fact]
    public void A_missing_key_that_is_needed_is_told()
    {
        string[] needed = ["site", "buses", "vats", "vats[0].id", "vats[0].volume", "vats[0].fibre", "vats[0].reducer", "vats[0].temperature", "vats[0].temperature.limit", "vats[0].probes", "vats[0].probes[0].driver", "buses.demo.kind"];
        foreach (var path in needed)
        {
            var spoilt = Sample();
            var (owner, key) = Find(spoilt, path);
            owner.Remove(key);
            Assert.Contains(Faults(spoilt), fault => fault.Path == path && fault.Seen == "missing");
        }
    }

    [Fact]
    public void Cut_off_text_and_random_bytes_are_a_fault_and_never_an_exception()
    {
        var text = Encoding.UTF8.GetBytes(File.ReadAllText(SamplePath));
        var random = new Random(20);
        for (var round = 0; round < 300; round++)
        {
            var bytes = round % 2 == 0 ? text[..random.Next(text.Length - 3)] : [.. text];
            for (var spot = 0; round % 2 == 1 && spot < 5; spot++)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            }

            File.WriteAllBytes(_file, bytes);
            var faults = new ConfigFaults();
            DaemonConfiguration.Read(_file, faults);
            Assert.True(round % 2 == 1 || faults.All.Count > 0, "cut-off text was taken");
        }
    }

    private static string SamplePath => Path.Combine(AppContext.BaseDirectory, "config/vatwatch.json");

    private static JsonObject Sample() => JsonNode.Parse(File.ReadAllText(SamplePath), documentOptions: Lenient)!.AsObject();

    private IReadOnlyList<ConfigFault> Faults(JsonObject root)
    {
        File.WriteAllText(_file, root.ToJsonString());
        var faults = new ConfigFaults();
        DaemonConfiguration.Read(_file, faults);
        return faults.All;
    }

    private static IEnumerable<(string Path, string Value)> Places(JsonNode node, string path = "") => node switch
    {
        JsonObject members => members.SelectMany(member => Places(member.Value!, path.Length == 0 ? member.Key : $"{path}.{member.Key}")
            .Prepend((path.Length == 0 ? member.Key : $"{path}.{member.Key}", member.Value!.ToJsonString()))).Distinct(),
        JsonArray items => items.SelectMany((item, index) => Places(item!, $"{path}[{index}]")),
        _ => [],
    };

    private static (JsonObject Owner, string Key) Find(JsonObject root, string path)
    {
        JsonNode node = root;
        var steps = path.Replace("[", ".[", StringComparison.Ordinal).Split('.');
        foreach (var step in steps[..^1])
        {
            node = (step[0] == '[' ? node[int.Parse(step[1..^1], System.Globalization.CultureInfo.InvariantCulture)] : node[step])!;
        }

        return (node.AsObject(), steps[^1]);
    }
}
