namespace VatWatch.Charts.Recipes;

/// <summary>The span of a chart and the zone in which its times are written.</summary>
internal sealed record TimeWindow
{
    // A record of no length still needs an axis.
    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(1);

    /// <summary>From <paramref name="from"/> to <paramref name="to"/>, at least a minute.</summary>
    public TimeWindow(DateTimeOffset from, DateTimeOffset to, TimeZoneInfo zone)
    {
        From = from;
        To = to - from < Shortest ? from + Shortest : to;
        Zone = zone;
    }

    /// <summary>Start.</summary>
    public DateTimeOffset From { get; }

    /// <summary>End.</summary>
    public DateTimeOffset To { get; }

    public TimeZoneInfo Zone { get; }

    /// <summary>The moment from which the axis counts; null (usual) for an axis of clock times.</summary>
    public DateTimeOffset? Zero { get; init; }

    public string AxisText => Zero is null ? $"time, {ZoneText()}" : "hours since the first dip";

    /// <summary>Length, s.</summary>
    public double Seconds => (To - From).TotalSeconds;

    /// <summary>Seconds from the start.</summary>
    public double SecondsAt(DateTimeOffset moment) => (moment - From).TotalSeconds;

    /// <summary>A moment as the clock on the wall shows it.</summary>
    public DateTimeOffset Local(DateTimeOffset moment) => TimeZoneInfo.ConvertTime(moment, Zone);

    /// <summary>For example "21:05".</summary>
    public string Clock(DateTimeOffset moment) => Local(moment).ToString("HH:mm");

    /// <summary>For example "24 Nov 2026 21:05".</summary>
    public string DateAndClock(DateTimeOffset moment) => Local(moment).ToString("d MMM yyyy HH:mm");

    /// <summary>The clock, with the date before it when the window spans more than a day: "21:05" or "24 Nov 21:05".</summary>
    public string Moment(DateTimeOffset moment) => Seconds <= 86_400 && moment >= From - TimeSpan.FromDays(1)
        ? Clock(moment)
        : Local(moment).ToString("d MMM HH:mm");

    /// <summary>For example "24 Nov 2026 21:00 – 25 Nov 2026 07:00, 10 h"; a date that stays the same is written once.</summary>
    public string SpanText()
    {
        var sameDay = Local(From).Date == Local(To).Date;
        return $"{DateAndClock(From)} – {(sameDay ? Clock(To) : DateAndClock(To))}, {DisplayUnits.Duration(To - From)}";
    }

    /// <summary>For example "UTC" or "America/New_York (UTC−05:00)"; both offsets when the clocks change within the span.</summary>
    public string ZoneText()
    {
        if (Zone.Id is "UTC" or "Etc/UTC" || (Zone.Id == "Local" && Zone.HasSameRules(TimeZoneInfo.Utc)))
            return "UTC";
        // The framework calls the machine's zone "Local" when it cannot find out its name.
        var name = Zone.Id == "Local" ? "local time" : Zone.Id;
        var (first, last) = (Offset(From), Offset(To));
        return first == last ? $"{name} ({first})" : $"{name} ({first}, later {last})";
    }

    private string Offset(DateTimeOffset moment) => WallTime.Offset(moment, Zone);
}
