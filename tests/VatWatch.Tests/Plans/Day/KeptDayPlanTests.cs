using VatWatch.Plans.Day;

namespace VatWatch.Tests.Plans.Day;

public sealed class KeptDayPlanTests
{
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);

    /// <summary>Dips at 9:00, 9:20 and 9:40, ten minutes each.</summary>
    private static readonly KeptDayPlan Day = new(
        ["500 g wool x 3 dips"],
        new()
        {
            Begins = Nine,
            Loads = [new(1, new(500, "wool", 3), 1, [.. Enumerable.Range(0, 3).Select(i => new PlannedDip(1, i + 1, At(20 * i), At((20 * i) + 10), At((20 * i) + 20), 45, 44, TimeSpan.Zero))])],
            Ends = At(60),
            EndsEarly = At(60),
            Rests = [],
        });

    [Fact]
    public void A_day_on_time_stays_as_it_is()
    {
        var (shift, toCome) = Day.Moved([At(10)], null, At(15));
        Assert.Equal(TimeSpan.Zero, shift);
        Assert.Equal([At(20), At(40)], toCome.Select(dip => dip.In));
    }

    [Fact]
    public void A_dip_that_came_out_late_moves_the_rest()
    {
        var (shift, toCome) = Day.Moved([At(17)], null, At(18));
        Assert.Equal(TimeSpan.FromMinutes(7), shift);
        Assert.Equal([At(27), At(47)], toCome.Select(dip => dip.In));
        Assert.Equal(At(57), toCome[^1].Out);
    }

    [Fact]
    public void Goods_that_went_in_late_move_it_too() => Assert.Equal(TimeSpan.FromMinutes(5), Day.Moved([At(10)], At(25), At(28)).Shift);

    [Fact]
    public void A_dip_that_nobody_begins_is_late_by_the_clock() => Assert.Equal(TimeSpan.FromMinutes(30), Day.Moved([], null, At(30)).Shift);

    [Fact]
    public void Goods_left_in_too_long_move_it_minute_by_minute() => Assert.Equal(TimeSpan.FromMinutes(12), Day.Moved([At(10)], At(20), At(42)).Shift);

    [Fact]
    public void A_dip_that_was_quick_brings_the_rest_forward() => Assert.Equal(TimeSpan.FromMinutes(-4), Day.Moved([At(6)], null, At(7)).Shift);

    [Fact]
    public void After_the_last_dip_nothing_is_to_come() => Assert.Empty(Day.Moved([At(10), At(30), At(50)], null, At(70)).ToCome);

    private static DateTimeOffset At(int minutes) => Nine.AddMinutes(minutes);
}
