using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Tests.Traces;

public class ColumnThinningTests
{
    [Fact]
    public void A_column_keeps_its_first_lowest_highest_and_last_point_in_order_of_time()
    {
        TracePoint[] column = [new(0, 5), new(1, 9), new(2, 7), new(3, 1), new(4, 6), new(5, 5)];
        Assert.Equal([new(0, 5), new(1, 9), new(3, 1), new(5, 5)], ColumnThinning.Thin(column, 10));
    }

    [Fact]
    public void A_day_every_five_seconds_shrinks_to_four_points_a_column_and_loses_no_spike()
    {
        var random = new Random(7);
        var points = Enumerable.Range(0, 17_280).Select(i => new TracePoint(i * 5, 40 + random.NextDouble())).ToArray();
        points[12_345] = points[12_345] with { Value = 61 };
        points[3_210] = points[3_210] with { Value = 12 };
        var thin = ColumnThinning.Thin(points, 86_400 / 600.0);

        Assert.InRange(thin.Count, 1_000, 4 * 601);
        Assert.Contains(points[12_345], thin);
        Assert.Contains(points[3_210], thin);
        Assert.Equal(thin.OrderBy(point => point.Seconds), thin);
        Assert.Equal((points[0], points[^1]), (thin[0], thin[^1]));
    }

    [Fact]
    public void Points_further_apart_than_a_column_stay_as_they_are()
    {
        TracePoint[] sparse = [new(0, 1), new(60, 2), new(120, 1)];
        Assert.Equal(sparse, ColumnThinning.Thin(sparse, 10));
    }
}
