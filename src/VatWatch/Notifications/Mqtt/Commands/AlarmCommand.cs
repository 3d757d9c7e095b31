using System.Diagnostics.CodeAnalysis;
using VatWatch.Alarms.Acts;

namespace VatWatch.Notifications.Mqtt.Commands;

/// <summary>
/// The payload of a command: <c>{"alarm":"overheat","by":"Ada"}</c> with the fields of its kind and nothing else. It comes from strangers, so
/// the reader is strict and never throws, whatever the bytes.
/// </summary>
internal static class AlarmCommand
{
    /// <summary>Reads a payload; when it is refused, <paramref name="fault"/> is a clause that says what was seen and what was wanted.</summary>
    public static bool TryParse(AlarmActKind kind, VatId vat, ReadOnlySpan<byte> payload, [NotNullWhen(true)] out AlarmRequest? request, [NotNullWhen(false)] out string? fault)
    {
        request = CommandFields.TryRead(payload, Shapes.Of(kind), out var fields, out fault) ? Request(kind, vat, fields) : null;
        return request is not null;
    }

    private static AlarmRequest Request(AlarmActKind kind, VatId vat, CommandFields fields) =>
        new(kind, vat.Value, fields.Text("alarm"), fields.Text("by"), "mqtt")
        {
            Minutes = fields.Number("minutes"),
            Text = fields.Text("reason") ?? fields.Text("text"),
        };

    /// <summary>What each kind of command holds.</summary>
    private static class Shapes
    {
        private static readonly CommandShape Plain = new(["alarm", "by"], """an object such as {"alarm":"overheat","by":"Ada"}""");

        private static readonly CommandShape Shelve = new(
            ["alarm", "by", "minutes", "reason"], """an object such as {"alarm":"overheat","by":"Ada","minutes":20,"reason":"probe out for cleaning"}""");

        private static readonly CommandShape Note = new(
            ["alarm", "by", "text"], """an object such as {"alarm":"overheat","by":"Ada","text":"lid was closed"}, with or without the alarm""", "alarm");

        public static CommandShape Of(AlarmActKind kind) => kind switch
        {
            AlarmActKind.Shelve => Shelve,
            AlarmActKind.Note => Note,
            _ => Plain,
        };
    }
}
