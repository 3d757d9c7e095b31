namespace VatWatch.Science.Tests;

public sealed class WantedTests
{
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-273.15)]
    [InlineData(-300)]
    public void A_temperature_that_does_not_exist_is_refused(double temperatureC)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.TemperatureC(temperatureC));
        Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.Kelvin(temperatureC));
    }

    [Fact]
    public void The_sentence_says_what_was_seen_and_what_is_wanted()
    {
        var liquorC = -300.5;
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.TemperatureC(liquorC));
        Assert.StartsWith("liquorC is -300.5; wanted a temperature above -273.15 °C.", refusal.Message, StringComparison.Ordinal);

        var ohm = -4.0;
        refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.Positive(ohm, "Ω"));
        Assert.StartsWith("ohm is -4 Ω; wanted a number above 0 Ω.", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Zero_is_not_positive_but_not_negative_either()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.Positive(0, "g"));
        Assert.Equal(0, Wanted.NotNegative(0, "g"));
        Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.NotNegative(-1e-9, "g"));
    }

    [Fact]
    public void A_lowest_value_is_itself_allowed()
    {
        Assert.Equal(1, Wanted.AtLeast(1, 1, ""));
        Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.AtLeast(0.999, 1, ""));
        Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.AtLeast(double.PositiveInfinity, 1, ""));
    }

    [Fact]
    public void Not_a_number_is_within_no_range()
        => Assert.Throws<ArgumentOutOfRangeException>(() => Wanted.Within(double.NaN, 0, 1, ""));
}
