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
}
