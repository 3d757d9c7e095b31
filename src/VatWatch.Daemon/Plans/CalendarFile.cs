using System.Security.Cryptography;
using System.Text;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Plans;

/// <summary>Plans of a vat as a calendar (RFC 5545), times in UTC: an event for each dip, rest and addition of a day, and one with a bell when the heater is to be switched. Not thread safe.</summary>
/// <param name="vat">The vat.</param>
/// <param name="units">The dyer's units.</param>
/// <param name="zone">The dyer's clock.</param>
/// <param name="made">When it was made, UTC.</param>
internal sealed class CalendarFile(VatDefinition vat, DisplayUnits units, TimeZoneInfo zone, DateTimeOffset made)
{
    /// <summary>A line of more octets is folded (RFC 5545, §3.1).</summary>
    private const int LongestLine = 75;

    /// <summary>Time at a switch.</summary>
    private static readonly TimeSpan Switching = TimeSpan.FromMinutes(10);

    private readonly StringBuilder _events = new();

    /// <summary>Adds a day's batches.</summary>
    public CalendarFile Add(DayPlan plan)
    {
        foreach (var dip in plan.Dips)
        {
            var load = plan.Loads[dip.Load - 1];
            Event($"{Utc(plan.Begins)}-{dip.Load}-{dip.Number}", dip.In, dip.Out, $"load {dip.Load}, dip {dip.Number} of {load.Goods.Dips}: {units.Goods(load.Goods.Grams)} {load.Goods.Kind}", DayText.Dip(plan, dip, units, zone));
        }

        foreach (var (from, to) in plan.Rests)
        {
            Event($"{Utc(from)}-rest", from, to, "the vat rests", "Lid on, no goods in the vat.");
        }

        foreach (var addition in plan.Additions)
        {
            Event($"{Utc(plan.Begins)}-add-{addition.AfterDips}", addition.From, addition.To, "add to the vat", DayText.Addition(addition, units));
        }

        return this;
    }

    /// <summary>Adds a warm-up: switching on with the list of the night and, where no thermostat was seen to do it, switching off.</summary>
    public CalendarFile Add(WarmPlan plan, WarmText text, double heaterWatts)
    {
        var list = NightList.Of(heaterWatts, units).Select(check => $"- {check.Sentence}").Prepend(NightList.Heading);
        Event(
            $"{Utc(plan.Wish.Ready)}-on", plan.SwitchOn, plan.SwitchOn + Switching, "switch on the heater", string.Join('\n', text.Lines().Select(line => $"{line.Name}: {line.Value}").Concat(list)), rings: true);
        if (plan.SetToC is null)
        {
            Event($"{Utc(plan.Wish.Ready)}-off", plan.SwitchOff, plan.SwitchOff + Switching, "switch off the heater", $"When the liquor is at {units.Temperature(plan.Wish.TargetC)}.", rings: true);
        }

        return this;
    }

    /// <summary>The file's text, each line ended with CR LF.</summary>
    public override string ToString() => $"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//VatWatch//plans//EN\r\n{_events}END:VCALENDAR\r\n";

    private void Event(string key, DateTimeOffset from, DateTimeOffset to, string summary, string description, bool rings = false)
    {
        Line("BEGIN", "VEVENT");
        Line("UID", Identifier($"{vat.Id}-{key}"));
        Line("DTSTAMP", Utc(made));
        Line("DTSTART", Utc(from));
        Line("DTEND", Utc(to));
        Line("SUMMARY", Escaped($"{vat.Name}: {summary}"));
        Line("DESCRIPTION", Escaped(description));
        if (rings)
        {
            Line("BEGIN", "VALARM");
            Line("ACTION", "DISPLAY");
            Line("TRIGGER", "PT0S");
            Line("DESCRIPTION", Escaped($"{vat.Name}: {summary}"));
            Line("END", "VALARM");
        }

        Line("END", "VEVENT");
    }

    /// <summary>The same dip of the same plan has the same name, so that a calendar that takes the file in again replaces it: a UUID (RFC 7986, §5.3) of version 8 (RFC 9562).</summary>
    private static string Identifier(string key)
    {
        var bytes = SHA256.HashData(Encoding.UTF8.GetBytes(key)).AsSpan(0, 16);
        bytes[6] = (byte)((bytes[6] & 0x0F) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3F) | 0x80);
        return new Guid(bytes, bigEndian: true).ToString();
    }

    /// <summary>To the minute, as people are told it.</summary>
    private static string Utc(DateTimeOffset at) => PlanClock.Local(at, TimeZoneInfo.Utc).ToString("yyyyMMdd'T'HHmmss'Z'");

    private static string Escaped(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal).Replace(",", "\\,", StringComparison.Ordinal)
            .Replace("\r\n", "\\n", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);

    /// <summary>Writes a line, folded between characters where it is too long.</summary>
    private void Line(string name, string value)
    {
        var octets = 0;
        foreach (var rune in $"{name}:{value}".EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LongestLine)
            {
                _events.Append("\r\n ");
                octets = 1;
            }

            _events.Append(rune);
            octets += rune.Utf8SequenceLength;
        }

        _events.Append("\r\n");
    }
}
