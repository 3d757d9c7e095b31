using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

/// <summary>A thermometer near the top: with the heater on it rises by 2 K in a quarter of an hour, after that by 4 K/h.</summary>
public sealed class SeenBeginningTests
{
    private static readonly DateTimeOffset Evening = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    [Fact]
    public void It_begins_with_the_minute_in_which_the_heater_went_on()
    {
        var points = Beginning(Vat(20, stands: 10), Evening, Evening.AddMinutes(37.5));
        Assert.Equal((-27.5 / 60, 20), points[0]); // on at the 10th minute, 27.5 min before the end
        Assert.Equal(21.0, points[2].C, 0.05); // the second five minutes, in the middle of the quick quarter
        Assert.Equal(points.OrderBy(point => point.C), points);
        Assert.True(points[^1].Hours < 0);
    }

    [Fact]
    public void A_vat_that_rises_from_the_first_minute_seen_had_its_heater_on_before() =>
        Assert.Empty(Beginning(Vat(20, stands: 0), Evening, Evening.AddMinutes(37.5)));

    [Fact]
    public void What_lies_before_a_gap_is_not_its_beginning() =>
        Assert.Empty(Beginning(Vat(20, stands: 10).Where(minute => minute.At < Evening.AddMinutes(5) || minute.At > Evening.AddMinutes(20)), Evening, Evening.AddMinutes(37.5)));

    [Fact]
    public void A_coarse_thermometer_that_flickers_between_two_steps_stands()
    {
        var points = Beginning(Vat(20, stands: 15).Select((minute, i) => (minute.At, Math.Round(2 * minute.C + (i < 15 && i % 3 == 0 ? 0.6 : 0)) / 2)), Evening, Evening.AddMinutes(37.5));
        Assert.Equal(-22.5 / 60, points[0].Hours, 2.0 / 60);
    }

    /// <summary>2 K over the balance come with each warm-up: one from 26 °C takes what one from 20 °C took, less the 6 K of lasting pace between them.</summary>
    [Fact]
    public void A_head_start_comes_with_every_warm_up()
    {
        var minutes = Vat(20, stands: 60, rises: 300).ToList();
        var quarters = minutes.GroupBy(minute => (int)(minute.At - Evening).TotalMinutes / 15).Select(quarter => (Evening.AddMinutes(15 * quarter.Key), quarter.Average(minute => minute.C)));
        var seen = SeenWarmUp.In(quarters, (from, to) => minutes.Where(minute => minute.At >= from && minute.At < to));
        Assert.Equal(0.25 + (36 - 22) / 4.0, Hours(20, 36), 0.06);
        Assert.Equal(0.25 + (36 - 28) / 4.0, Hours(26, 36), 0.06);
        Assert.Equal(0.25 + (36 - 18) / 4.0, Hours(16, 36), 0.06);

        double Hours(double fromC, double toC) => SeenWarmUp.Time(seen, fromC, toC, isBegun: false, (from, to) => TimeSpan.FromHours((to - from) / 5))!.Value.TotalHours;
    }

    private static IReadOnlyList<(double Hours, double C)> Beginning(IEnumerable<(DateTimeOffset At, double C)> minutes, DateTimeOffset firstQuarter, DateTimeOffset zero) =>
        SeenBeginning.Of(firstQuarter, zero, (from, to) => minutes.Where(minute => minute.At >= from && minute.At < to));

    private static IEnumerable<(DateTimeOffset At, double C)> Vat(double fromC, int stands, int rises = 80) => Enumerable.Range(0, stands + rises)
        .Select(minute => (Evening.AddMinutes(minute), minute < stands ? fromC : fromC + (minute - stands + 0.5 is < 15 and var quick ? 2 * quick / 15 : 2 + (minute - stands - 14.5) * 4 / 60)));
}
