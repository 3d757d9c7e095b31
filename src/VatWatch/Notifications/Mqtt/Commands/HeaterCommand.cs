using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using VatWatch.Sessions.Entries;

namespace VatWatch.Notifications.Mqtt.Commands;

/// <summary>
/// The payload that tells that somebody, or a timer, switched the heater of a vat: <c>{"heater":"on","readyBy":"09:00","by":"Ada"}</c>. It becomes an entry of the
/// log book and switches nothing.
/// </summary>
internal static class HeaterCommand
{
    private static readonly CommandShape Shape = new(
        ["heater", "by", "readyBy"], """an object such as {"heater":"on","readyBy":"09:00","by":"Ada"}, with or without the time""", "readyBy");

    /// <summary>Reads a payload; when it is refused, <paramref name="fault"/> is a clause that says what was seen and what was wanted.</summary>
    public static bool TryParse(VatId vat, ReadOnlySpan<byte> payload, [NotNullWhen(true)] out EntryDraft? draft, [NotNullWhen(false)] out string? fault)
    {
        draft = null;
        if (!CommandFields.TryRead(payload, Shape, out var fields, out fault))
        {
            return false;
        }

        var (heater, ready, by) = (fields.Text("heater"), fields.Text("readyBy"), FreeText.Clean(fields.Text("by")));
        TimeOnly? readyAt = TimeOnly.TryParseExact(ready, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null;
        fault = (heater, ready, readyAt) switch
        {
            (not ("on" or "off"), _, _) => $"the heater is \"{FreeText.Shown(heater)}\"; wanted \"on\" or \"off\"",
            ("off", not null, _) => "the heater is off and \"readyBy\" is given; wanted it with \"on\" alone",
            (_, not null, null) => $"the time in \"readyBy\" is \"{FreeText.Shown(ready)}\"; wanted a local time of day such as \"09:00\"",
            _ when by.Length is 0 or > EntryDraft.LongestBy => $"the name in \"by\" has {by.Length} characters that can be shown; wanted 1 to {EntryDraft.LongestBy}",
            _ => null,
        };
        draft = fault is null ? new EntryDraft(vat, heater == "on" ? EntryKind.HeaterOn : EntryKind.HeaterOff, by) { ReadyAt = readyAt } : null;
        return draft is not null;
    }
}
