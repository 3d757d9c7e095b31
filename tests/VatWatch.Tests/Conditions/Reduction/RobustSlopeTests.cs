using VatWatch.Conditions.Reduction;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class RobustSlopeTests
{
    [Fact]
    public void A_quarter_of_wild_points_does_not_move_it()
    {
        var random = new Random(3);
        TimedValue[] points = [.. Enumerable.Range(0, 40).Select(i => new TimedValue(
            TimeSpan.FromMinutes(i), -700 + 0.5 * i + random.NextDouble() + (i % 4 == 0 ? 60 : 0)))];
        var trend = Assert.NotNull(RobustSlope.Through(points));
        Assert.Equal(30, trend.PerHour, 5.0);
        Assert.Equal(-680, trend.Newest, 3.0);
    }

    [Fact]
    public void Its_error_is_that_of_least_squares_over_the_known_efficiency()
    {
        // Theil-Sen has 95.5 % of the efficiency of least squares for normal noise (3/π): errors 1/sqrt(0.955) larger.
        var random = new Random(5);
        double squares = 0, stated = 0;
        const int runs = 300;
        for (var run = 0; run < runs; run++)
        {
            TimedValue[] points = [.. Enumerable.Range(0, 30).Select(i => new TimedValue(
                TimeSpan.FromMinutes(i), MathNet.Numerics.Distributions.Normal.Sample(random, 0, 2)))];
            var trend = RobustSlope.Through(points)!.Value;
            squares += trend.PerHour * trend.PerHour / runs;
            stated += trend.StandardError / runs;
        }

        var leastSquares = 2 / Math.Sqrt(30 * (30.0 * 30 - 1) / 12) * 60;
        Assert.Equal(leastSquares / Math.Sqrt(0.955), Math.Sqrt(squares), 0.15 * leastSquares);
        Assert.Equal(Math.Sqrt(squares), stated, 0.2 * leastSquares);
    }

    [Fact]
    public void Too_few_points_or_one_moment_give_none()
    {
        Assert.Null(RobustSlope.Through([new(TimeSpan.Zero, 1), new(TimeSpan.FromMinutes(1), 2)]));
        Assert.Null(RobustSlope.Through([.. Enumerable.Repeat(new TimedValue(TimeSpan.Zero, 1), 10)]));
    }
}
