namespace VatWatch.Plans.Warm;

/// <summary>How a workroom goes up and down with the hours of a day: a wave that is highest in the afternoon.</summary>
/// <param name="SwingK">Half of what lies between its warmest and its coldest, K.</param>
public readonly record struct RoomByHour(double SwingK)
{
    /// <summary>Where no probe tells it: a workroom in which nobody heats by night falls by four or five kelvins. Set on a second physics, no source.</summary>
    public static RoomByHour Usual { get; } = new(2.2);

    /// <summary>A night, on average, lies below the mean of the day by this share of the swing.</summary>
    public const double NightShare = 0.75;

    private const double WarmestHour = 16;
    private const double GreatestSwingK = 6;

    /// <summary>Less of a day does not show it.</summary>
    private static readonly TimeSpan Shortest = TimeSpan.FromHours(14);

    /// <summary>By how much the room is above its mean of the day, K.</summary>
    public double AboveMeanK(DateTimeOffset at, TimeZoneInfo zone) =>
        SwingK * Math.Cos(Math.Tau * (TimeZoneInfo.ConvertTime(at, zone).TimeOfDay.TotalHours - WarmestHour) / 24);

    /// <summary>The swing that a probe in the room shows; the usual one where it was not seen for long enough.</summary>
    public static RoomByHour In(IReadOnlyList<(DateTimeOffset At, double C)> room) =>
        room.Count > 1 && room[^1].At - room[0].At >= Shortest ? new(Math.Min(GreatestSwingK, (room.Max(one => one.C) - room.Min(one => one.C)) / 2)) : Usual;
}
