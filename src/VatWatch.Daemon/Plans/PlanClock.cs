using System.Globalization;

namespace VatWatch.Daemon.Plans;

/// <summary>Planned moments as people are told them: to the minute, by the clock of the site.</summary>
internal static class PlanClock
{
    /// <summary>A local time of day such as "9:00" or "09:00"; null when it is none.</summary>
    public static TimeOnly? Time(string? text) =>
        TimeOnly.TryParseExact(text, ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null;

    /// <summary>The nearest whole minute, with the offset of the zone.</summary>
    public static DateTimeOffset Local(DateTimeOffset at, TimeZoneInfo zone) => TimeZoneInfo.ConvertTime(
        new DateTimeOffset((at.UtcTicks + TimeSpan.TicksPerMinute / 2) / TimeSpan.TicksPerMinute * TimeSpan.TicksPerMinute, TimeSpan.Zero), zone);
}
