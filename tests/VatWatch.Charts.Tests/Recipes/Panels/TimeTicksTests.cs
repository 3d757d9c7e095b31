using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Panels;

namespace VatWatch.Charts.Tests.Recipes.Panels;

public class TimeTicksTests
{
    private static readonly TimeZoneInfo London = TimeZoneInfo.FindSystemTimeZoneById("Europe/London");
    private static readonly TimeZoneInfo Kathmandu = TimeZoneInfo.FindSystemTimeZoneById("Asia/Kathmandu");

    private static TimeWindow Window(string from, double hours, TimeZoneInfo? zone = null) => new(
        DateTimeOffset.Parse(from), DateTimeOffset.Parse(from).AddHours(hours), zone ?? TimeZoneInfo.Utc);

    private static IEnumerable<string> Labels(TimeWindow window, int most) => TimeTicks.Of(window, most).Select(tick => tick.Label);

    [Fact]
    public void A_night_is_marked_at_round_hours_with_the_date_at_the_start_and_at_midnight() => Assert.Equal(
        ["20:00\n24 Nov", "22:00", "00:00\n25 Nov", "02:00", "04:00", "06:00"],
        Labels(Window("2026-11-24T19:30:00Z", 12), 7));

    [Fact]
    public void Marks_are_round_on_the_wall_clock_of_a_zone_with_odd_minutes() => // Nepal is at UTC+05:45
        Assert.Equal(["06:00\n1 Mar", "07:00", "08:00"], Labels(Window("2026-03-01T00:00:00Z", 3, Kathmandu), 4));

    [Fact]
    public void When_the_clocks_go_back_the_hour_comes_twice() => // in the UK on 25 October 2026 at 01:00 UTC
        Assert.Equal(["00:00\n25 Oct", "01:00", "01:00", "02:00"], Labels(Window("2026-10-24T23:00:00Z", 3, London), 5));

    [Fact]
    public void When_the_clocks_go_forward_the_hour_is_left_out() => // in the UK on 29 March 2026 at 01:00 UTC
        Assert.Equal(["00:00\n29 Mar", "02:00", "03:00"], Labels(Window("2026-03-29T00:00:00Z", 2, London), 3));

    [Theory]
    [InlineData(1.0 / 60)]
    [InlineData(0.4)]
    [InlineData(7)]
    [InlineData(24)]
    [InlineData(24 * 9)]
    [InlineData(24 * 400)]
    public void Any_span_gets_some_marks_and_not_too_many(double hours) => Assert.InRange(TimeTicks.Of(Window("2026-03-01T00:07:11Z", hours), 8).Count, 1, 9);

    [Fact]
    public void The_zone_is_named_with_its_offset_and_with_both_when_the_clocks_change()
    {
        Assert.Equal("UTC", Window("2026-10-24T23:00:00Z", 3).ZoneText());
        Assert.Equal("Europe/London (UTC+01:00, later UTC+00:00)", Window("2026-10-24T23:00:00Z", 3, London).ZoneText());
    }

    [Fact]
    public void A_zone_without_a_name_is_called_local_time()
    {
        var nameless = TimeZoneInfo.CreateCustomTimeZone("Local", TimeSpan.FromHours(-7), "Local", "Local");
        Assert.Equal("local time (UTC−07:00)", Window("2026-10-24T23:00:00Z", 3, nameless).ZoneText());
        Assert.Equal("UTC", Window("2026-10-24T23:00:00Z", 3, TimeZoneInfo.CreateCustomTimeZone("Local", TimeSpan.Zero, "Local", "Local")).ZoneText());
    }

    [Fact]
    public void A_span_within_a_day_writes_the_date_once() =>
        Assert.Equal("1 Mar 2026 08:00 – 09:30, 1 h 30 min", Window("2026-03-01T08:00:00Z", 1.5).SpanText());

    [Fact]
    public void An_axis_that_counts_from_a_moment_has_hours_before_and_after_it()
    {
        var window = Window("2026-03-01T00:30:00Z", 5) with { Zero = DateTimeOffset.Parse("2026-03-01T03:00:00Z") };
        Assert.Equal([("−2:00", 1800.0), ("−1:00", 5400), ("0", 9000), ("1:00", 12600), ("2:00", 16200)], TimeTicks.Of(window, 5).Select(tick => (tick.Label, tick.Seconds)));
        Assert.Equal("hours since the first dip", window.AxisText);
    }
}
