using MathNet.Numerics;
using VatWatch.Conditions.Liquor;

namespace VatWatch.Tests.Conditions.Liquor;

public sealed class TrendWindowTests
{
    [Fact]
    public void The_line_is_that_of_a_general_numerics_library()
    {
        var window = new TrendWindow(TimeSpan.FromMinutes(10));
        var random = new Random(7);
        var hours = Enumerable.Range(0, 60).Select(i => i * 10 / 3600.0).ToArray();
        var values = hours.Select(t => 20 + 9.3 * t + random.NextDouble()).ToArray();
        foreach (var (t, v) in hours.Zip(values))
        {
            window.Add(TimeSpan.FromHours(t), v);
        }

        // MathNet.Numerics, Fit.Line.
        var (intercept, slope) = Fit.Line(hours, values);
        var line = Assert.NotNull(window.Line());
        Assert.Equal(slope, line.PerHour, 1e-6);
        Assert.Equal(intercept + slope * hours[^1], line.Newest, 1e-6);
    }

    [Fact]
    public void The_standard_error_is_that_of_the_reference_formula()
    {
        // heat-balance reference: SE = sigma sqrt(12)/(dt N^1.5); sigma 0.06 K, dt 10 s, 10 min: 0.16 K/h.
        var random = new Random(3);
        var errors = Enumerable.Range(0, 200).Select(_ =>
        {
            var window = new TrendWindow(TimeSpan.FromMinutes(10));
            for (var i = 0; i <= 60; i++)
            {
                window.Add(TimeSpan.FromSeconds(10 * i), 0.06 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1));
            }

            return window.Line()!.Value.StandardError;
        }).Average();
        Assert.InRange(errors, 0.14, 0.18);
    }

    [Fact]
    public void Old_points_leave_and_a_fast_stream_is_thinned()
    {
        var window = new TrendWindow(TimeSpan.FromMinutes(10));
        for (var i = 0; i < 36_000; i++)
        {
            window.Add(TimeSpan.FromSeconds(i * 0.1), i);
        }

        Assert.InRange(window.Count, 200, TrendWindow.Capacity + 1);
        Assert.InRange(window.Span.TotalMinutes, 9.9, 10.01);
    }

    [Fact]
    public void Too_little_says_nothing()
    {
        var window = new TrendWindow(TimeSpan.FromMinutes(10));
        Assert.Null(window.Line());
        window.Add(TimeSpan.Zero, 1);
        window.Add(TimeSpan.FromSeconds(5), 2);
        Assert.Null(window.Line());
    }
}
