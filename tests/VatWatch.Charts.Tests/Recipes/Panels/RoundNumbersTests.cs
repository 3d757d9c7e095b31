using VatWatch.Charts.Recipes.Panels;

namespace VatWatch.Charts.Tests.Recipes.Panels;

public class RoundNumbersTests
{
    [Theory]
    [InlineData(12.0, 52.0, 6, "20 30 40 50")]
    [InlineData(9.4, 10.6, 5, "9.5 10.0 10.5")]
    [InlineData(-0.06, 0.06, 5, "−0.05 0.00 0.05")]
    [InlineData(-750.0, -560.0, 5, "−750 −700 −650 −600")]
    public void Steps_are_one_two_or_five(double low, double high, int most, string wanted) =>
        Assert.Equal(wanted, string.Join(' ', RoundNumbers.Between(low, high, most).Select(mark => mark.Label)));

    [Theory]
    [InlineData(5, 5)]
    [InlineData(1e-9, 2e-9)]
    [InlineData(-1e12, 1e12)]
    public void A_range_of_any_size_ends(double low, double high) => Assert.InRange(RoundNumbers.Between(low, high, 6).Count, 0, 8);

    [Fact]
    public void Marks_in_fahrenheit_stand_at_their_celsius() => // 100, 110 and 120 °F, by definition
        Assert.Equal([37.78, 43.33, 48.89], AxisScale.Fahrenheit.Marks(37, 50, 3).Select(mark => Math.Round(mark.Canonical, 2)));
}
