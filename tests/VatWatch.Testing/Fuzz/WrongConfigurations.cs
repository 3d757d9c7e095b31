using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace VatWatch.Testing.Fuzz;

/// <summary>A configuration with a single mistake in it.</summary>
/// <param name="Place">Where the mistake is.</param>
/// <param name="Mistake">What it is.</param>
/// <param name="Root">The configuration.</param>
internal sealed record WrongConfiguration(string Place, string Mistake, JsonObject Root);

/// <summary>The mistakes people make, each at every place where it can be made.</summary>
internal static partial class WrongConfigurations
{
    /// <summary>Any text is right here, or only the machine that it runs on can say.</summary>
    private static readonly string[] FreeTexts = ["$schema", "data", "name", "reference", "user", "org", "bucket", "address", "port", "tokenFile", "ask", "answer", "refuse"];

    /// <summary>Every mistake in <paramref name="sound"/>.</summary>
    public static IEnumerable<WrongConfiguration> Of(JsonObject sound)
    {
        foreach (var (steps, value) in Places(sound, []))
        {
            var (place, key) = (Path(steps), steps[^1] as string);
            if (key is null || place.Contains(".status", StringComparison.Ordinal) && key != "status")
            {
                // The words of an instrument may be any.
                continue;
            }

            yield return Make(sound, steps, place, "misspelt", (owner, name) =>
            {
                var held = owner[name]!.DeepClone();
                owner.Remove(name);
                owner["x" + name] = held;
            });
            foreach (var (mistake, wrong) in Wrong(key, value))
            {
                yield return Make(sound, steps, place, mistake, (owner, name) => owner[name] = JsonNode.Parse(wrong));
            }
        }
    }

    private static IEnumerable<(string Mistake, string Json)> Wrong(string key, JsonNode value)
    {
        if (value is JsonObject or JsonArray)
        {
            yield return ("a text in place of a section", "\"yes\"");
            yield return ("null", "null");
            yield break;
        }

        yield return ("a list in place of a value", "[1, 2]");
        yield return ("null", "null");
        if (value.GetValueKind() is JsonValueKind.True or JsonValueKind.False)
        {
            yield return ("a word in place of true or false", "\"yes\"");
        }
        else if (value.GetValueKind() == JsonValueKind.Number)
        {
            yield return ("a number far out of range", "-987654321");
            yield return ("a number as text", "\"5\"");
        }
        else if (Quantity().Match(value.GetValue<string>()) is { Success: true } quantity)
        {
            yield return ("a bare number", quantity.Groups["number"].Value);
            yield return ("no unit", $"\"{quantity.Groups["number"].Value}\"");
            yield return ("another kind of unit", $"\"{quantity.Groups["number"].Value} parsec\"");
            yield return ("far out of range", $"\"9e11 {quantity.Groups["unit"].Value}\"");
        }
        else if (!FreeTexts.Contains(key))
        {
            yield return ("some other word", "\"no such thing\"");
            yield return ("an empty text", "\"\"");
        }
    }

    private static WrongConfiguration Make(JsonObject sound, object[] steps, string place, string mistake, Action<JsonObject, string> spoil)
    {
        var root = sound.DeepClone().AsObject();
        JsonNode owner = root;
        foreach (var step in steps[..^1])
        {
            owner = (step is int index ? owner[index] : owner[(string)step])!;
        }

        spoil(owner.AsObject(), (string)steps[^1]);
        return new(place, mistake, root);
    }

    private static IEnumerable<(object[] Steps, JsonNode Value)> Places(JsonNode node, object[] above) => node switch
    {
        JsonObject members => members.SelectMany(member => Places(member.Value!, [.. above, member.Key]).Prepend(([.. above, member.Key], member.Value!))),
        JsonArray items => items.SelectMany((item, index) => Places(item!, [.. above, index])),
        _ => [],
    };

    private static string Path(object[] steps) => string.Concat(steps.Select((step, at) => step is int ? $"[{step}]" : at == 0 ? $"{step}" : $".{step}"));

    [GeneratedRegex("^(?<number>-?[0-9.]+) (?<unit>[^0-9 ]+)$")]
    private static partial Regex Quantity();
}
