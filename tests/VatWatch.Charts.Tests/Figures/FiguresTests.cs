using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Tests.Figures;

/// <summary>Every expected figure was worked out by hand; the working stands beside it.</summary>
public class FiguresTests
{
    [Fact]
    public void Time_in_band_counts_from_the_moment_the_line_crosses_its_edge()
    {
        // 30 to 50 °C in 20 min is 1 K/min: at 38 °C after 8 min, at 48 °C after 18 min; then 40 min at 50 °C.
        var times = TimeInBand.Of(GoodStep.Of(Logs.Trace([(0, 30), (20, 50), (40, 50), (60, 50)])), 38, 48);
        Assert.Equal((8, 10, 42), (times.Below.TotalMinutes, times.Inside.TotalMinutes, times.Above.TotalMinutes));
    }

    [Fact]
    public void A_value_that_stays_at_an_edge_of_the_band_is_in_it()
    {
        var steps = GoodStep.Of(Logs.Minutes(38, 38, 48, 48));
        Assert.Equal(TimeSpan.FromMinutes(3), TimeInBand.Of(steps, 38, 48).Inside);
    }

    [Fact]
    public void Nothing_is_claimed_of_a_gap_or_a_fault()
    {
        // Known: 0–3 min and 20–21 min; the 17 min of silence and the two steps beside the fault are not.
        var times = TimeInBand.Of(GoodStep.Of(Logs.Trace([(0, 40), (1, 40), (2, 40), (3, 40), (20, 40), (21, 40), (22, null), (23, 40)])), 38, 48);
        Assert.Equal(TimeSpan.FromMinutes(4), times.Known);
    }

    [Fact]
    public void Degree_minutes_above_the_limit_are_the_area_between_line_and_limit()
    {
        // Limit 49: 48→50 crosses half way: triangle 0.5 min × 1 K / 2 = 0.25. 50→50: 1 K·min. 50→48: 0.25 again. Together 1.5 K·min in 2 min.
        var above = TimeAbove.Of(GoodStep.Of(Logs.Minutes(48, 50, 50, 48)), 49);
        Assert.Equal(1.5, above.ValueMinutes, 9);
        Assert.Equal(TimeSpan.FromMinutes(2), above.Time);
    }

    [Fact]
    public void Standing_exactly_at_the_limit_is_time_at_the_limit_but_no_degree_minutes()
    {
        var above = TimeAbove.Of(GoodStep.Of(Logs.Minutes(49, 49, 49, 49)), 49);
        Assert.Equal((TimeSpan.FromMinutes(3), 0), (above.Time, above.ValueMinutes));
    }

    [Fact]
    public void Extremes_are_of_good_values_only_with_the_first_moment_of_each()
    {
        var readings = new[] { 45, 47, 44, 47, 99 }.Select((value, minute) => Logs.Reading(minute, value)).ToArray();
        readings[4] = readings[4] with { Quality = Quality.Suspect };
        var extremes = Extremes.Of(ProbeTrace.Of(Logs.Record(TimeSpan.FromMinutes(4), readings)).Single())!;
        Assert.Equal((45, 47, 44, 47), (extremes.First, extremes.Last, extremes.Lowest, extremes.Highest));
        Assert.Equal(NightOfWarming.Start.AddMinutes(1), extremes.HighestAt);
        // 44, 45, 47, 47: mean of the middle two.
        Assert.Equal(46, extremes.Median);
    }

    [Fact]
    public void Without_a_good_value_there_are_no_extremes_and_no_drift()
    {
        Assert.Null(Extremes.Of(Logs.Minutes(null, null)));
        Assert.Null(Drift.PerHour(Logs.Minutes(10.1, null)));
    }

    [Fact]
    public void Drift_is_the_slope_of_the_least_squares_line()
    {
        // Hours 0, 1, 2 and values 10.0, 9.8, 9.9: mean 1 and 9.9; products −1·0.1 + 0 + 1·0 = −0.1; squares 2; slope −0.05 per hour.
        Assert.Equal(-0.05, Drift.PerHour(Logs.Trace([(0, 10.0), (60, 9.8), (120, 9.9)]))!.Value, 9);
    }

    [Fact]
    public void Heater_time_is_counted_from_on_to_the_next_reading_and_not_across_a_gap()
    {
        var heater = Logs.Trace([(0, 1), (1, 1), (2, 0), (3, 1), (4, 1), (20, 1), (21, 0)]);
        var on = OnStretches.Of(heater);
        // 0–2, 3–4 and 20–21 min.
        Assert.Equal(TimeSpan.FromMinutes(4), on.Total);
        Assert.Equal(3, on.Stretches.Count);
    }
}
