using VatWatch.Science.Tests.Reference;
using VatWatch.Science.Thermometry;

namespace VatWatch.Science.Tests.Thermometry;

public sealed class PlatinumResistanceTests
{
    // Source: pt100.csv, IEC 60751; the rows at 10, 50 and 100 °C were seen in print.
    [Fact]
    public void Every_row_of_the_table_is_met_both_ways()
        => Assert.All(
            ReferenceTable.Load("pt100.csv").Rows,
            row =>
            {
                var temperatureC = row.Number("tempC");
                Assert.Equal(row.Number("ohm"), PlatinumResistance.ResistanceOhm(temperatureC).Value, 0.0006);
                Assert.Equal(row.Number("ohm_exact"), PlatinumResistance.ResistanceOhm(temperatureC).Value, 1e-9);
                Assert.Equal(temperatureC, PlatinumResistance.TemperatureC(row.Number("ohm_exact")).Value, 1e-8);
            });

    // Source: printed IEC 60751 tables, from memory: 18.52 Ω at -200 °C, 60.26 Ω at -100 °C, 96.09 Ω at -10 °C, 390.48 Ω at 850 °C.
    [Theory]
    [InlineData(-200, 18.52)]
    [InlineData(-100, 60.26)]
    [InlineData(-10, 96.09)]
    [InlineData(850, 390.48)]
    public void The_printed_tables_ends_and_below_zero(double temperatureC, double ohm)
    {
        var resistance = PlatinumResistance.ResistanceOhm(temperatureC);
        Assert.Equal(ohm, resistance.Value, 0.0055);
        Assert.False(resistance.Extrapolated);
    }

    [Fact]
    public void Below_zero_the_inverse_gives_the_temperature_back()
        => Assert.All(
            Enumerable.Range(-240, 240),
            t => Assert.Equal(t, PlatinumResistance.TemperatureC(PlatinumResistance.ResistanceOhm(t).Value).Value, 1e-9));

    [Fact]
    public void A_Pt1000_has_ten_times_the_resistance()
    {
        Assert.Equal(1193.97125, PlatinumResistance.ResistanceOhm(50, PlatinumResistance.Pt1000Ohm).Value, 1e-6);
        Assert.Equal(50, PlatinumResistance.TemperatureC(1193.97125, PlatinumResistance.Pt1000Ohm).Value, 1e-8);
    }

    [Theory]
    [InlineData(15, true)]
    [InlineData(18.6, false)]
    [InlineData(390, false)]
    [InlineData(391, true)]
    public void Outside_the_standards_range_the_temperature_is_flagged(double ohm, bool extrapolated)
        => Assert.Equal(extrapolated, PlatinumResistance.TemperatureC(ohm).Extrapolated);

    [Fact]
    public void Far_below_the_range_the_resistance_ends_at_nothing()
    {
        Assert.Equal(new Estimate(0, true), PlatinumResistance.ResistanceOhm(-270));
        Assert.InRange(PlatinumResistance.TemperatureC(0).Value, -273.15, -240);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(1e6)]
    public void A_resistance_no_temperature_gives_is_refused(double ohm)
        => Assert.Throws<ArgumentOutOfRangeException>(() => PlatinumResistance.TemperatureC(ohm));

    [Fact]
    public void A_temperature_or_part_that_does_not_exist_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PlatinumResistance.ResistanceOhm(-274));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlatinumResistance.ResistanceOhm(25, 0));
    }
}
