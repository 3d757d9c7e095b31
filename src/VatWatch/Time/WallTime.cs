namespace VatWatch.Time;

/// <summary>Moments as the clock on the site's wall shows them, with the distance from UTC said.</summary>
public static class WallTime
{
    /// <summary>For example "2026-03-01 20:05:10 UTC−06:00", or with "UTC" alone.</summary>
    public static string Text(DateTimeOffset moment, TimeZoneInfo zone) => $"{Clock(moment, zone)} {(zone.GetUtcOffset(moment) == TimeSpan.Zero ? "UTC" : Offset(moment, zone))}";

    /// <summary>For example "2026-03-01 20:05:10", where the zone is said elsewhere.</summary>
    public static string Clock(DateTimeOffset moment, TimeZoneInfo zone) => TimeZoneInfo.ConvertTime(moment, zone).ToString("yyyy-MM-dd HH:mm:ss");

    /// <summary>For example "20:05", or "Sun 20:05" on another day than <paramref name="now"/>.</summary>
    public static string Near(DateTimeOffset moment, DateTimeOffset now, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTime(moment, zone);
        return local.ToString(local.Date == TimeZoneInfo.ConvertTime(now, zone).Date ? "HH:mm" : "ddd HH:mm");
    }

    /// <summary>For programs, UTC by RFC 3339, for example "2026-03-02T02:05:10.000Z".</summary>
    public static string Rfc3339(DateTimeOffset moment) => moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'");

    /// <summary>For example "UTC−06:00".</summary>
    /// <param name="moment">When: summer time moves it.</param>
    public static string Offset(DateTimeOffset moment, TimeZoneInfo zone)
    {
        var offset = zone.GetUtcOffset(moment);
        return $"UTC{(offset < TimeSpan.Zero ? '−' : '+')}{offset.Duration().ToString("hh\\:mm")}";
    }

    /// <summary>The next moment at or after <paramref name="utc"/> at which the clocks of <paramref name="zone"/> show a time, UTC; one that a change of clocks leaves out is taken an hour later.</summary>
    public static DateTimeOffset Next(TimeOnly time, DateTimeOffset utc, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTime(utc, zone).DateTime;
        var at = local.Date + time.ToTimeSpan();
        return At(DateOnly.FromDateTime(at < local ? at.AddDays(1) : at), time, zone);
    }

    /// <summary>The moment of a day at which the clocks of <paramref name="zone"/> show a time, UTC; one that a change of clocks leaves out is taken an hour later.</summary>
    public static DateTimeOffset At(DateOnly day, TimeOnly time, TimeZoneInfo zone)
    {
        var at = day.ToDateTime(time);
        at = zone.IsInvalidTime(at) ? at.AddHours(1) : at;
        return new DateTimeOffset(at, zone.GetUtcOffset(at)).ToUniversalTime();
    }
}
