using System.Diagnostics.CodeAnalysis;
using System.Text.Json;

namespace VatWatch.Notifications.Mqtt.Commands;

/// <summary>
/// The fields of a command's payload: texts, and numbers of minutes. It comes from strangers, so the reader is strict and never throws, whatever the bytes.
/// </summary>
internal sealed class CommandFields
{
    /// <summary>Largest payload, bytes; a real one has under 500.</summary>
    public const int MostBytes = 1024;

    private readonly Dictionary<string, object> _fields;

    private CommandFields(Dictionary<string, object> fields) => _fields = fields;

    /// <summary>A text; null when the command has none of that name.</summary>
    public string? Text(string key) => _fields.GetValueOrDefault(key) as string;

    /// <summary>A number; null when the command has none of that name.</summary>
    public double? Number(string key) => _fields.GetValueOrDefault(key) as double?;

    /// <summary>Reads a payload; when it is refused, <paramref name="fault"/> is a clause that says what was seen and what was wanted.</summary>
    public static bool TryRead(ReadOnlySpan<byte> payload, CommandShape shape, [NotNullWhen(true)] out CommandFields? read, [NotNullWhen(false)] out string? fault)
    {
        read = null;
        if (payload.Length > MostBytes)
        {
            fault = $"the command has {payload.Length} bytes; wanted at most {MostBytes}";
            return false;
        }

        try
        {
            var fields = new Dictionary<string, object>(StringComparer.Ordinal);
            fault = ReadFields(payload, shape, fields) ?? MissingField(shape, fields);
            read = fault is null ? new(fields) : null;
            return fault is null;
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException or FormatException)
        {
            // The reader throws InvalidOperationException for text that is no valid UTF-8 or holds half a surrogate pair, FormatException for a number beyond a double.
            fault = $"the command is not JSON; wanted {shape.Wanted}";
            return false;
        }
    }

    private static string? ReadFields(ReadOnlySpan<byte> payload, CommandShape shape, Dictionary<string, object> fields)
    {
        var reader = new Utf8JsonReader(payload, new JsonReaderOptions { MaxDepth = 2 });
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return $"the command is no object; wanted {shape.Wanted}";
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var key = reader.GetString()!;
            if (!shape.Fields.Contains(key))
            {
                return $"the command has the unknown field \"{FreeText.Shown(key)}\"; wanted {shape.Wanted}";
            }

            if (fields.ContainsKey(key))
            {
                return $"the command has the field \"{key}\" twice; wanted {shape.Wanted}";
            }

            var wantsNumber = key == "minutes";
            if (!reader.Read() || reader.TokenType != (wantsNumber ? JsonTokenType.Number : JsonTokenType.String))
            {
                return $"the field \"{key}\" is no {(wantsNumber ? "number" : "text")}; wanted {shape.Wanted}";
            }

            fields[key] = wantsNumber ? reader.GetDouble() : reader.GetString()!;
        }

        return reader.Read() ? $"the command goes on after its object; wanted {shape.Wanted}" : null;
    }

    private static string? MissingField(CommandShape shape, Dictionary<string, object> fields) =>
        shape.Fields.FirstOrDefault(field => field != shape.Optional && !fields.ContainsKey(field)) is { } missing
            ? $"the command lacks the field \"{missing}\"; wanted {shape.Wanted}"
            : null;
}

/// <summary>The fields of one kind of command.</summary>
/// <param name="Wanted">An example, for the answer to a bad one.</param>
/// <param name="Optional">The one that may be left out.</param>
internal sealed record CommandShape(string[] Fields, string Wanted, string? Optional = null);
