using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using VatWatch.Plans.Day;

namespace VatWatch.Daemon.Plans;

/// <summary>A day's plan as a calendar (RFC 5545): an event for each dip and each rest, times in UTC.</summary>
internal static class CalendarFile
{
    /// <summary>A line of more octets is folded (RFC 5545, §3.1).</summary>
    private const int LongestLine = 75;

    /// <summary>The file's text, each line ended with CR LF.</summary>
    /// <param name="made">When it was made, UTC.</param>
    public static string Of(VatDefinition vat, DayPlan plan, DisplayUnits units, TimeZoneInfo zone, DateTimeOffset made)
    {
        var file = new StringBuilder();
        Line(file, "BEGIN", "VCALENDAR");
        Line(file, "VERSION", "2.0");
        Line(file, "PRODID", "-//VatWatch//plan of a day//EN");
        foreach (var dip in plan.Dips)
        {
            var load = plan.Loads[dip.Load - 1];
            Event(file, $"{vat.Id}-{Utc(plan.Begins)}-{dip.Load}-{dip.Number}", made, dip.In, dip.Out, $"{vat.Name}: load {DayText.Load(load, units)}, dip {dip.Number}", DayText.Dip(plan, dip, units, zone));
        }

        foreach (var (from, to) in plan.Rests)
        {
            Event(file, $"{vat.Id}-{Utc(from)}-rest", made, from, to, $"{vat.Name}: the vat rests", "Lid on, no goods in the vat.");
        }

        foreach (var addition in plan.Additions)
        {
            Event(file, $"{vat.Id}-{Utc(plan.Begins)}-add-{addition.AfterDips}", made, addition.From, addition.To, $"{vat.Name}: add to the vat", DayText.Addition(addition, units));
        }

        Line(file, "END", "VCALENDAR");
        return file.ToString();
    }

    private static void Event(StringBuilder file, string key, DateTimeOffset made, DateTimeOffset from, DateTimeOffset to, string summary, string description)
    {
        Line(file, "BEGIN", "VEVENT");
        Line(file, "UID", Identifier(key));
        Line(file, "DTSTAMP", Utc(made));
        Line(file, "DTSTART", Utc(from));
        Line(file, "DTEND", Utc(to));
        Line(file, "SUMMARY", Escaped(summary));
        Line(file, "DESCRIPTION", Escaped(description));
        Line(file, "END", "VEVENT");
    }

    /// <summary>The same dip of the same plan has the same name, so that a calendar that takes the file in again replaces it: a UUID (RFC 7986, §5.3) of version 8 (RFC 9562).</summary>
    private static string Identifier(string key)
    {
        var bytes = SHA256.HashData(Encoding.UTF8.GetBytes(key)).AsSpan(0, 16);
        bytes[6] = (byte)((bytes[6] & 0x0F) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3F) | 0x80);
        return new Guid(bytes, bigEndian: true).ToString();
    }

    private static string Utc(DateTimeOffset at) => at.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);

    private static string Escaped(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal).Replace(",", "\\,", StringComparison.Ordinal)
            .Replace("\r\n", "\\n", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);

    /// <summary>Writes a line, folded between characters where it is too long.</summary>
    private static void Line(StringBuilder file, string name, string value)
    {
        var octets = 0;
        foreach (var rune in $"{name}:{value}".EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LongestLine)
            {
                file.Append("\r\n ");
                octets = 1;
            }

            file.Append(rune);
            octets += rune.Utf8SequenceLength;
        }

        file.Append("\r\n");
    }
}
