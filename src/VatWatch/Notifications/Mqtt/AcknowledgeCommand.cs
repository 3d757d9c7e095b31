using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using VatWatch.Alarms;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// The payload of an acknowledge command: <c>{"alarm":"overheat","by":"Ada"}</c> and nothing else. It comes from strangers, so the reader is
/// strict and never throws, whatever the bytes.
/// </summary>
/// <param name="Alarm">The alarm.</param>
/// <param name="By">Who, free of control and formatting characters, 1 to 60 characters.</param>
internal sealed partial record AcknowledgeCommand(AlarmName Alarm, string By)
{
    /// <summary>Largest payload, bytes; a real one has under 200.</summary>
    public const int MostBytes = 1024;

    /// <summary>Longest name of a person, characters (as <see cref="Acknowledgement.By"/> has it).</summary>
    public const int LongestBy = 60;

    private const string Wanted = """an object such as {"alarm":"overheat","by":"Ada"}""";

    /// <summary>Reads a payload; when it is refused, <paramref name="fault"/> is a clause that says what was seen and what was wanted.</summary>
    public static bool TryParse(ReadOnlySpan<byte> payload, [NotNullWhen(true)] out AcknowledgeCommand? command, [NotNullWhen(false)] out string? fault)
    {
        command = null;
        if (payload.Length > MostBytes)
        {
            fault = $"the command has {payload.Length} bytes; wanted at most {MostBytes}";
            return false;
        }

        try
        {
            fault = ReadFields(payload, out var alarm, out var by) ?? Check(alarm, ref by);
            command = fault is null ? new(new(alarm!), by!) : null;
            return fault is null;
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            // The reader throws InvalidOperationException for text that is no valid UTF-8 or holds half a surrogate pair.
            fault = $"the command is not JSON; wanted {Wanted}";
            return false;
        }
    }

    private static string? ReadFields(ReadOnlySpan<byte> payload, out string? alarm, out string? by)
    {
        alarm = by = null;
        var reader = new Utf8JsonReader(payload, new JsonReaderOptions { MaxDepth = 2 });
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return $"the command is no object; wanted {Wanted}";
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var key = reader.GetString()!;
            if (key is not ("alarm" or "by"))
            {
                return $"the command has the unknown field \"{Shown(key)}\"; wanted {Wanted}";
            }

            if ((key == "alarm" ? alarm : by) is not null)
            {
                return $"the command has the field \"{key}\" twice; wanted {Wanted}";
            }

            if (!reader.Read() || reader.TokenType != JsonTokenType.String)
            {
                return $"the field \"{key}\" is no text; wanted {Wanted}";
            }

            var text = reader.GetString();
            (alarm, by) = key == "alarm" ? (text, by) : (alarm, text);
        }

        return reader.Read() ? $"the command goes on after its object; wanted {Wanted}" : null;
    }

    private static string? Check(string? alarm, ref string? by)
    {
        if (alarm is null || by is null)
        {
            return $"the command lacks the field \"{(alarm is null ? "alarm" : "by")}\"; wanted {Wanted}";
        }

        if (!AlarmPattern().IsMatch(alarm))
        {
            return $"the alarm \"{Shown(alarm)}\" cannot be the name of one; wanted {Wanted}";
        }

        by = Clean(by);
        return by.Length is 0 or > LongestBy ? $"the name in \"by\" has {by.Length} characters that can be shown; wanted 1 to {LongestBy}" : null;
    }

    /// <summary>
    /// Takes out what has no shape of its own: control characters, line and paragraph separators, and formatting characters such as those
    /// that turn the direction of writing and could make a log line read as another.
    /// </summary>
    private static string Clean(string text)
    {
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned))
            {
                clean.Append(rune.ToString());
            }
        }

        return clean.ToString().Trim();
    }

    private static string Shown(string text)
    {
        var clean = Clean(text);
        return clean.Length > LongestShown ? $"{clean[..LongestShown]}..." : clean;
    }

    /// <summary>How much of a stranger's word is repeated in a log line or an answer.</summary>
    private const int LongestShown = 40;

    [GeneratedRegex("^[a-z0-9][a-z0-9-]{0,39}([.][a-z0-9][a-z0-9-]{0,39})?\\z", RegexOptions.CultureInvariant)]
    private static partial Regex AlarmPattern();
}
