using VatWatch.Science.Heat;

namespace VatWatch.Science.Tests.Heat;

public class ScaldTimeTests
{
    // Moritz and Henriques 1947 as reproduced in a water-safety table; seconds to partial and full thickness injury.
    [Theory]
    [InlineData(44, null, 21600.0)]
    [InlineData(45, 7200.0, 10800.0)]
    [InlineData(47, 1200.0, 2700.0)]
    [InlineData(48, 900.0, 1200.0)]
    [InlineData(49, 480.0, 600.0)]
    [InlineData(51, 120.0, 252.0)]
    [InlineData(55, 17.0, 30.0)]
    [InlineData(60, 3.0, 5.0)]
    public void The_rows_of_the_table_are_met(double temperatureC, double? partial, double? full)
    {
        var time = ScaldTime.At(temperatureC);
        if (partial is { } seconds)
            Assert.Equal(seconds, time.PartialThicknessSeconds!.Value, 1e-9);
        else
            Assert.Null(time.PartialThicknessSeconds);
        Assert.Equal(full!.Value, time.FullThicknessSeconds!.Value, 1e-9);
        Assert.False(time.Extrapolated);
    }

    // Tap-water leaflet of the US consumer product safety agency, as quoted on public pages; it does not tell the degrees apart.
    [Theory]
    [InlineData(54, 30)]
    [InlineData(57, 10)]
    [InlineData(60, 6)]
    [InlineData(66, 2)]
    [InlineData(68, 1)]
    public void The_agency_leaflet_lies_between_the_two_degrees(double temperatureC, double seconds)
    {
        var time = ScaldTime.At(temperatureC);
        Assert.InRange(seconds, 0.8 * time.PartialThicknessSeconds!.Value, 1.25 * time.FullThicknessSeconds!.Value);
    }

    // Smooth fit given with the 1947 points, ln t = 116.4 - 28.3 ln T, within a factor of two from 45 to 57 °C.
    [Fact]
    public void The_table_follows_the_published_smooth_fit()
    {
        for (var t = 45.0; t <= 57; t += 0.5)
        {
            var fit = Math.Exp(116.4 - 28.3 * Math.Log(t));
            Assert.InRange(ScaldTime.At(t).PartialThicknessSeconds!.Value, fit / 2, 2 * fit);
        }
    }

    [Fact]
    public void Hotter_is_never_slower_and_below_the_data_nothing_is_claimed()
    {
        Assert.Null(ScaldTime.At(43.9).FullThicknessSeconds);
        var before = double.PositiveInfinity;
        for (var t = 45.0; t <= 100; t += 0.25)
        {
            var now = ScaldTime.At(t);
            Assert.True(now.PartialThicknessSeconds <= before && now.PartialThicknessSeconds <= now.FullThicknessSeconds);
            before = now.PartialThicknessSeconds!.Value;
        }

        Assert.True(ScaldTime.At(80).Extrapolated);
        Assert.Throws<ArgumentOutOfRangeException>(() => ScaldTime.At(double.NaN));
    }

    /// <summary>Rounded down, since too short a time harms nobody.</summary>
    [Theory]
    [InlineData(44, null)]
    [InlineData(45, "in about 2 hours")]
    [InlineData(48, "in about 15 minutes")]
    [InlineData(53, "in about 45 seconds")]
    [InlineData(66, "in about 1 second")]
    [InlineData(68, "at once")]
    [InlineData(100, "at once")]
    public void The_time_in_words(double temperatureC, string? words) => Assert.Equal(words, ScaldTime.At(temperatureC).Words);
}
