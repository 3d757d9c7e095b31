using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

/// <summary>In a room that swings by 4 K: warmest at 16 h, coldest at 4 h.</summary>
public sealed class HeatedVatTests
{
    private static readonly DateTimeOffset Noon = new(2031, 3, 14, 12, 0, 0, TimeSpan.Zero);
    private static readonly RoomByHour Room = new(4);

    /// <summary>12 K at 4 K/h about four in the afternoon. A loss of 0.05 an hour, 0.6 of it by the room, in one that is 7.6 K colder on average about four in the night takes away 0.23 K/h.</summary>
    [Fact]
    public void A_warm_up_is_slower_by_night_than_it_was_in_the_afternoon()
    {
        var (afternoon, night) = (Noon.AddHours(2.5), Noon.AddHours(14.5));
        Assert.Equal(3, Hours(afternoon, afternoon), 0.01);
        Assert.Equal(3 * 4 / (4 - 0.23), Hours(afternoon, night), 0.03);
        Assert.Equal(3 * 4 / (4 + 0.23), Hours(night, afternoon), 0.03);
    }

    [Fact]
    public void A_room_that_stands_changes_nothing() => Assert.Equal(3, Hours(Noon, Noon.AddHours(12), new(0)), 1e-6);

    [Fact]
    public void What_no_warm_up_was_seen_of_the_balance_says() =>
        Assert.Equal(7, Of(SeenHeat.Nothing, _ => TimeSpan.FromHours(7)).Time(Noon, 20, 40)!.Value.TotalHours);

    /// <summary>How long 12 K take that go on at a moment, by a warm-up of 4 K/h that was seen to begin at another.</summary>
    private static double Hours(DateTimeOffset seenAt, DateTimeOffset at, RoomByHour? room = null)
    {
        var seen = SeenWarmUp.In(Enumerable.Range(-2, 20).Select(i => (seenAt.AddMinutes(15 * i), 25.0 + i)));
        return Of(new(seen, null) { Room = room ?? Room }, _ => null).Time(at, 26, 38)!.Value.TotalHours;
    }

    private static HeatedVat Of(SeenHeat seen, Func<double, TimeSpan?> balance) => new(0.05, seen, TimeZoneInfo.Utc, (fromC, _) => balance(fromC));
}
