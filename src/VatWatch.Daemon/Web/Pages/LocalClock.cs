namespace VatWatch.Daemon.Web.Pages;

/// <summary>Moments as the clock on the studio's wall shows them.</summary>
/// <param name="Now">This moment by the vat's clock.</param>
public sealed record LocalClock(TimeZoneInfo Zone, Stamp Now)
{
    /// <summary>For example "04:10", or "Tue 22 Oct 04:10" on another day than today.</summary>
    public string At(DateTimeOffset utc) => Near(utc, "HH:mm");

    /// <summary>For example "04:10:05", with the day when it is another one.</summary>
    public string AtSecond(DateTimeOffset utc) => Near(utc, "HH:mm:ss");

    /// <summary>For example "14:05", whatever the day.</summary>
    public string Hour(DateTimeOffset utc) => Local(utc).ToString("HH:mm");

    /// <summary>For example "Tue 3 Mar 2026".</summary>
    public string Day(DateTimeOffset utc) => Local(utc).ToString("ddd d MMM yyyy");

    /// <summary>The last moment, at or before <paramref name="utc"/>, at which the wall showed a time of day.</summary>
    public DateTimeOffset Last(TimeOnly time, DateTimeOffset utc)
    {
        var there = Local(utc);
        var wall = there.Date + time.ToTimeSpan();
        var at = new DateTimeOffset(wall, Zone.GetUtcOffset(wall));
        return (at <= there ? at : at.AddDays(-1)).ToUniversalTime();
    }

    /// <summary>For the <c>datetime</c> attribute.</summary>
    public static string Machine(DateTimeOffset utc) => utc.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'");

    private DateTimeOffset Local(DateTimeOffset utc) => TimeZoneInfo.ConvertTime(utc, Zone);

    private string Near(DateTimeOffset utc, string clock) => Local(utc).ToString(Local(utc).Date == Local(Now.Utc).Date ? clock : $"ddd d MMM {clock}");
}
