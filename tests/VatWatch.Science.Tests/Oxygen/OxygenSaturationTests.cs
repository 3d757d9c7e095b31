using VatWatch.Science.Oxygen;
using VatWatch.Science.Tests.Reference;

namespace VatWatch.Science.Tests.Oxygen;

public sealed class OxygenSaturationTests
{
    // Source: oxygen-saturation.csv, Benson and Krause 1984, fresh water, 1 atm, three decimals.
    [Fact]
    public void Every_row_of_the_table_agrees_and_rows_beyond_the_fit_are_flagged()
        => Assert.All(
            ReferenceTable.Load("oxygen-saturation.csv").Rows,
            row =>
            {
                var saturation = OxygenSaturation.MilligramsPerLitre(row.Number("tempC"));
                Assert.Equal(row.Number("mg_per_L"), saturation.Value, 0.00051);
                Assert.Equal(row.Text("status").StartsWith("outside", StringComparison.Ordinal), saturation.Extrapolated);
            });

    // Same source, with its pressure correction.
    [Theory]
    [InlineData(25, 0.90, 7.411)]
    [InlineData(40, 0.85, 5.376)]
    public void Thin_air_holds_less(double temperatureC, double pressureAtm, double milligramsPerLitre)
        => Assert.Equal(milligramsPerLitre, OxygenSaturation.MilligramsPerLitre(temperatureC, pressureAtm).Value, 0.0006);

    // Source: an independent equation (Battino 1981, coefficients from memory) times the oxygen pressure of moist air, the values
    // beside the table; 0.5 % to 55 °C, 1.1 % at 60 °C.
    [Theory]
    [InlineData(0, 14.602, 0.005)]
    [InlineData(20, 9.072, 0.005)]
    [InlineData(40, 6.391, 0.005)]
    [InlineData(49, 5.563, 0.005)]
    [InlineData(55, 5.064, 0.005)]
    [InlineData(60, 4.661, 0.011)]
    public void An_independent_equation_agrees(double temperatureC, double milligramsPerLitre, double share)
        => Assert.Equal(milligramsPerLitre, OxygenSaturation.MilligramsPerLitre(temperatureC).Value, share * milligramsPerLitre);

    // Source: Standard Methods 4500-O table at 25 °C against chlorinity (from memory); salinity is 1.80655 times chlorinity.
    [Theory]
    [InlineData(5, 7.850)]
    [InlineData(10, 7.457)]
    [InlineData(15, 7.083)]
    [InlineData(20, 6.728)]
    public void Salt_water_holds_less(double chlorinity, double milligramsPerLitre)
        => Assert.Equal(
            milligramsPerLitre, OxygenSaturation.MilligramsPerLitre(25, salinity: 1.80655 * chlorinity).Value, 0.001);

    [Fact]
    public void A_brine_saltier_than_the_sea_is_flagged()
        => Assert.True(OxygenSaturation.MilligramsPerLitre(25, salinity: 41).Extrapolated);

    [Theory]
    [InlineData(double.NaN, 1, 0)]
    [InlineData(101, 1, 0)]
    [InlineData(25, 0, 0)]
    [InlineData(25, 0.03, 0)]
    [InlineData(25, double.NaN, 0)]
    [InlineData(25, 1, -1)]
    public void What_cannot_be_is_refused(double temperatureC, double pressureAtm, double salinity)
        => Assert.Throws<ArgumentOutOfRangeException>(
            () => OxygenSaturation.MilligramsPerLitre(temperatureC, pressureAtm, salinity));
}
