namespace VatWatch.Science.Tests;

public sealed class RequireTests
{
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-273.15)]
    [InlineData(-300)]
    public void A_temperature_that_does_not_exist_is_refused(double temperatureC)
        => Assert.Throws<ArgumentOutOfRangeException>(() => Require.TemperatureC(temperatureC));

    [Fact]
    public void The_sentence_says_what_was_seen_and_what_is_wanted()
    {
        var liquorC = -300.5;
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Require.TemperatureC(liquorC));
        Assert.StartsWith("liquorC is -300.5; wanted a temperature above -273.15 °C.", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Zero_is_not_positive_but_not_negative_either()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Require.Positive(0));
        Assert.Equal(0, Require.NotNegative(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Require.NotNegative(-1e-9));
    }

    [Fact]
    public void Not_a_number_is_within_no_range()
        => Assert.Throws<ArgumentOutOfRangeException>(() => Require.Within(double.NaN, 0, 1));
}
