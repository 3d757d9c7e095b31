using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Signals;

public sealed class RateLineTests
{
    [Fact]
    public void A_line_is_the_least_squares_one_with_its_error()
    {
        LiquorMean[] means = [.. Enumerable.Range(0, 21).Select(i => new LiquorMean(TimeSpan.FromMinutes(i), 30 + 0.15 * i + (i % 2 == 0 ? 0.02 : -0.02), null, 6))];
        var line = Assert.NotNull(RateLine.Through(means, TimeSpan.Zero));
        var (_, slope) = MathNet.Numerics.Fit.Line([.. means.Select(m => m.At.TotalHours)], [.. means.Select(m => m.LiquorC)]);
        Assert.Equal(slope, line.KPerHour, 1e-6);
        Assert.Equal(10, line.MeanAt.TotalMinutes, 1e-6);

        // Textbook: s / sqrt(Σ(t - mean)²) with s about 0.02 K and Σ = 770 min².
        Assert.Equal(0.0205 / Math.Sqrt(770) * 60, line.Sigma, 0.005);
        Assert.Null(RateLine.Through(means, TimeSpan.FromMinutes(18)));
    }

    [Fact]
    public void Within_one_step_of_a_coarse_thermometer_no_number_of_points_is_a_slope()
    {
        LiquorMean[] flat = [.. Enumerable.Range(0, 21).Select(i => new LiquorMean(TimeSpan.FromMinutes(i), 30, null, 6))];
        Assert.InRange(RateLine.Through(flat, TimeSpan.Zero, stepK: 0.5)!.Value.Sigma, 0.5, 0.7);
    }

    [Theory]
    [InlineData(38, 15, 20)]
    [InlineData(0, 17.5, 18.5)]
    public void A_coarse_thermometer_shows_a_rise_that_has_just_begun_and_goes_on_by_the_long_line_where_it_always_rose(int heldMinutes, double least, double most)
    {
        LiquorMean[] means = [.. Enumerable.Range(0, 50).Select(i => new LiquorMean(TimeSpan.FromMinutes(i), Math.Round(44.6 + 18 * Math.Max(0, i - heldMinutes) / 60.0), null, 1))];
        var slow = RateLine.Through(means, TimeSpan.Zero, stepK: 1);
        var line = RateLine.Brisker(slow, means, TimeSpan.Zero, TimeSpan.FromMinutes(4.5), stepK: 1);
        Assert.InRange(line!.Value.KPerHour, least, most);
    }

    [Fact]
    public void Two_steps_of_a_coarse_thermometer_are_no_rise_yet()
    {
        LiquorMean[] means = [.. Enumerable.Range(0, 50).Select(i => new LiquorMean(TimeSpan.FromMinutes(i), i < 40 ? 44 : i < 45 ? 45 : 46, null, 1))];
        var slow = RateLine.Through(means, TimeSpan.Zero, stepK: 1);
        Assert.Equal(slow, RateLine.Brisker(slow, means, TimeSpan.Zero, TimeSpan.FromMinutes(4.5), stepK: 1));
    }
}
