using VatWatch.Science.Tests.Reference;
using VatWatch.Science.Thermometry;

namespace VatWatch.Science.Tests.Thermometry;

public sealed class ThermocoupleTests
{
    // Source: thermocouple-k.csv, NIST Monograph 175 (1993), reference and inverse functions.
    [Fact]
    public void Type_K_agrees_with_every_row_of_the_table()
        => Assert.All(
            ReferenceTable.Load("thermocouple-k.csv").Rows,
            row =>
            {
                var millivolts = Thermocouple.K.Millivolts(row.Number("tempC"));
                Assert.Equal(row.Number("mV6"), millivolts.Value, 6e-7);
                Assert.Equal(row.Number("tempC_from_inverse"), Thermocouple.K.TemperatureC(millivolts.Value).Value, 0.00051);
                Assert.False(millivolts.Extrapolated);
            });

    // Source: the same monograph; voltage to 0.001 mV, and how far the inverse function misses the temperature.
    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(10, 0.391, 0.024)]
    [InlineData(20, 0.790, 0.021)]
    [InlineData(25, 0.992, 0.015)]
    [InlineData(30, 1.196, 0.008)]
    [InlineData(40, 1.612, -0.004)]
    [InlineData(50, 2.036, -0.012)]
    [InlineData(60, 2.468, -0.015)]
    [InlineData(70, 2.909, -0.013)]
    [InlineData(80, 3.358, -0.008)]
    [InlineData(90, 3.814, -0.001)]
    [InlineData(100, 4.279, 0.005)]
    public void Type_T_agrees_with_its_table(double temperatureC, double millivolts, double inverseMiss)
    {
        var voltage = Thermocouple.T.Millivolts(temperatureC).Value;
        Assert.Equal(millivolts, voltage, 0.00051);
        Assert.Equal(inverseMiss, Thermocouple.T.TemperatureC(voltage).Value - temperatureC, 0.00051);
    }

    // Source: printed tables of the monograph, from memory: type K 20.644 mV at 500 °C, type T 20.872 mV at 400 °C.
    [Fact]
    public void The_upper_ends_of_the_inverse_functions()
    {
        Assert.Equal(20.644, Thermocouple.K.Millivolts(500).Value, 0.0006);
        Assert.Equal(500, Thermocouple.K.TemperatureC(20.644).Value, 0.06);
        Assert.Equal(20.872, Thermocouple.T.Millivolts(400).Value, 0.0006);
        Assert.Equal(400, Thermocouple.T.TemperatureC(20.872).Value, 0.04);
    }

    // Worked by hand: hot 60 °C, cold 24 °C, type K: 1.4767 + 0.9597 = 2.4365 mV, 60.02 °C.
    [Fact]
    public void The_cold_junctions_voltage_is_added_not_its_temperature()
    {
        Assert.Equal(0.9597, Thermocouple.K.Millivolts(24).Value, 0.00006);
        Assert.Equal(60.02, Thermocouple.K.CompensatedC(1.4767, 24).Value, 0.006);
    }

    [Fact]
    public void A_cold_junction_as_warm_as_the_hot_one_gives_its_temperature()
        => Assert.Equal(35.02, Thermocouple.K.CompensatedC(0, 35).Value, 0.006);

    [Fact]
    public void Outside_the_functions_the_result_is_flagged()
    {
        Assert.True(Thermocouple.K.Millivolts(-5).Extrapolated);
        Assert.True(Thermocouple.T.Millivolts(401).Extrapolated);
        Assert.True(Thermocouple.K.TemperatureC(-0.1).Extrapolated);
        Assert.True(Thermocouple.K.TemperatureC(20.7).Extrapolated);
        Assert.True(Thermocouple.K.CompensatedC(2, -5).Extrapolated);
        Assert.False(Thermocouple.K.CompensatedC(2, 20).Extrapolated);
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Thermocouple.K.TemperatureC(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Thermocouple.K.TemperatureC(1e9));
        Assert.Throws<ArgumentOutOfRangeException>(() => Thermocouple.K.Millivolts(-300));
        Assert.Throws<ArgumentOutOfRangeException>(() => Thermocouple.K.CompensatedC(double.NaN, 20));
    }
}
