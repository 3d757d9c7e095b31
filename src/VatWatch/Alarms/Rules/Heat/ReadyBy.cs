using System.Text.RegularExpressions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>When the vat should be warm each day.</summary>
/// <param name="Time">Local time of day.</param>
/// <param name="For">How long after it a cold vat still matters; 15 min to 16 h.</param>
/// <param name="Zone">Whose local time.</param>
public sealed partial record ReadyBy(TimeOnly Time, TimeSpan For, TimeZoneInfo Zone)
{
    /// <summary>Whether <paramref name="utc"/> lies in the hours in which the vat should be warm.</summary>
    public bool Covers(DateTimeOffset utc)
    {
        var local = TimeZoneInfo.ConvertTime(utc, Zone).TimeOfDay;
        var since = local - Time.ToTimeSpan();
        return (since < TimeSpan.Zero ? since + TimeSpan.FromDays(1) : since) < For;
    }

    /// <summary>The next time at or after <paramref name="utc"/> at which the vat should be warm, UTC.</summary>
    public DateTimeOffset Next(DateTimeOffset utc) => WallTime.Next(Time, utc, Zone);

    /// <summary>Reads <c>readyBy</c>, <c>readyFor</c> and <c>zone</c> of <c>cold</c>; null without the first. Faults go to the node.</summary>
    internal static ReadyBy? Read(ConfigNode node)
    {
        var time = node.Has("readyBy") ? node.Matching("readyBy", ClockTime(), "a local time of day, such as \"08:30\"") : "";
        var length = node.Duration("readyFor", TimeSpan.FromMinutes(15), TimeSpan.FromHours(16), TimeSpan.FromHours(4));
        var zone = node.Zone("zone");
        return time.Length == 0 ? null : new(TimeOnly.ParseExact(time, "HH:mm"), length, zone);
    }

    [GeneratedRegex("^([01][0-9]|2[0-3]):[0-5][0-9]\\z", RegexOptions.CultureInvariant)]
    private static partial Regex ClockTime();
}
