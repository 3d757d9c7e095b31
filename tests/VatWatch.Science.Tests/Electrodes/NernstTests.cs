using VatWatch.Science.Electrodes;
using VatWatch.Science.Tests.Reference;

namespace VatWatch.Science.Tests.Electrodes;

public sealed class NernstTests
{
    // Source: nernst-slope.csv, ln(10) R T / F with the CODATA 2018 constants, three decimals.
    [Fact]
    public void The_slope_agrees_with_the_table()
        => Assert.All(
            ReferenceTable.Load("nernst-slope.csv").Rows,
            row => Assert.Equal(row.Number("mV_per_pH"), Nernst.SlopeMillivoltsPerPh(row.Number("tempC")), 0.00051));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-273.15)]
    public void A_temperature_that_does_not_exist_is_refused(double temperatureC)
        => Assert.Throws<ArgumentOutOfRangeException>(() => Nernst.SlopeMillivoltsPerPh(temperatureC));
}
