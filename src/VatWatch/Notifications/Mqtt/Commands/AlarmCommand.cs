using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using VatWatch.Alarms;

namespace VatWatch.Notifications.Mqtt.Commands;

/// <summary>
/// The payload of a command: <c>{"alarm":"overheat","by":"Ada"}</c> with the fields of its kind and nothing else. It comes from strangers, so
/// the reader is strict and never throws, whatever the bytes.
/// </summary>
internal static class AlarmCommand
{
    /// <summary>Largest payload, bytes; a real one has under 500.</summary>
    public const int MostBytes = 1024;

    /// <summary>Reads a payload; when it is refused, <paramref name="fault"/> is a clause that says what was seen and what was wanted.</summary>
    public static bool TryParse(AlarmActKind kind, VatId vat, ReadOnlySpan<byte> payload, [NotNullWhen(true)] out AlarmRequest? request, [NotNullWhen(false)] out string? fault)
    {
        request = null;
        if (payload.Length > MostBytes)
        {
            fault = $"the command has {payload.Length} bytes; wanted at most {MostBytes}";
            return false;
        }

        var shape = Shape.Of(kind);
        try
        {
            var fields = new Dictionary<string, object>(StringComparer.Ordinal);
            fault = ReadFields(payload, shape, fields) ?? MissingField(shape, fields);
            request = fault is null ? Request(kind, vat, fields) : null;
            return request is not null;
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException or FormatException)
        {
            // The reader throws InvalidOperationException for text that is no valid UTF-8 or holds half a surrogate pair, FormatException for a number beyond a double.
            fault = $"the command is not JSON; wanted {shape.Wanted}";
            return false;
        }
    }

    private static AlarmRequest Request(AlarmActKind kind, VatId vat, Dictionary<string, object> fields) =>
        new(kind, vat.Value, Text(fields, "alarm"), Text(fields, "by"), "mqtt")
        {
            Minutes = fields.TryGetValue("minutes", out var minutes) ? (double)minutes : null,
            Text = Text(fields, "reason") ?? Text(fields, "text"),
        };

    private static string? Text(Dictionary<string, object> fields, string key) => fields.GetValueOrDefault(key) as string;

    private static string? ReadFields(ReadOnlySpan<byte> payload, Shape shape, Dictionary<string, object> fields)
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

    private static string? MissingField(Shape shape, Dictionary<string, object> fields) =>
        shape.Fields.FirstOrDefault(field => field != shape.Optional && !fields.ContainsKey(field)) is { } missing
            ? $"the command lacks the field \"{missing}\"; wanted {shape.Wanted}"
            : null;

    /// <summary>The fields of one kind of command.</summary>
    private sealed record Shape(string[] Fields, string Wanted, string? Optional = null)
    {
        private static readonly Shape Plain = new(["alarm", "by"], """an object such as {"alarm":"overheat","by":"Ada"}""");

        private static readonly Shape Shelve = new(
            ["alarm", "by", "minutes", "reason"], """an object such as {"alarm":"overheat","by":"Ada","minutes":20,"reason":"probe out for cleaning"}""");

        private static readonly Shape Note = new(
            ["alarm", "by", "text"], """an object such as {"alarm":"overheat","by":"Ada","text":"lid was closed"}, with or without the alarm""", "alarm");

        public static Shape Of(AlarmActKind kind) => kind switch
        {
            AlarmActKind.Shelve => Shelve,
            AlarmActKind.Note => Note,
            _ => Plain,
        };
    }
}
