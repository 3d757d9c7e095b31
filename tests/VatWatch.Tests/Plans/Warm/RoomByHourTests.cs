using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

public sealed class RoomByHourTests
{
    private static readonly DateTimeOffset Noon = new(2031, 3, 14, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_room_is_warmest_in_the_afternoon_of_the_dyers_clock()
    {
        var room = new RoomByHour(3);
        Assert.Equal(3, room.AboveMeanK(Noon.AddHours(4), TimeZoneInfo.Utc), 1e-9);
        Assert.Equal(-3, room.AboveMeanK(Noon.AddHours(16), TimeZoneInfo.Utc), 1e-9);
        Assert.Equal(3, room.AboveMeanK(Noon.AddHours(10), TimeZoneInfo.CreateCustomTimeZone("west", TimeSpan.FromHours(-6), "west", "west")), 1e-9);
    }

    [Fact]
    public void A_probe_in_the_room_shows_its_swing_once_it_was_seen_for_long_enough()
    {
        Assert.Equal(2.5, RoomByHour.In(Hours(20)).SwingK, 0.05);
        Assert.Equal(RoomByHour.Usual, RoomByHour.In(Hours(8)));
        Assert.Equal(RoomByHour.Usual, RoomByHour.In([]));
    }

    [Fact]
    public void A_day_is_planned_in_the_room_of_its_hour_where_no_probe_tells_it()
    {
        // 14 °C by night is three quarters of the swing below the mean of the day, and the afternoon the whole of it above.
        Assert.Equal(14 + 3 + 4, (ReferenceVat.Heat with { RoomIsMeasured = false }).At(Noon.AddHours(4), new(4), TimeZoneInfo.Utc).LikelyRoomC, 1e-9);
        Assert.Equal(20, ReferenceVat.Heat.At(Noon.AddHours(4), new(4), TimeZoneInfo.Utc).LikelyRoomC);
    }

    private static List<(DateTimeOffset At, double C)> Hours(int count) =>
        [.. Enumerable.Range(0, count + 1).Select(hour => (Noon.AddHours(hour), 17 + new RoomByHour(2.5).AboveMeanK(Noon.AddHours(hour), TimeZoneInfo.Utc)))];
}
