using VatWatch.Science.Thermometry;

namespace VatWatch.Science.Tests.Thermometry;

public sealed class ThermistorTests
{
    private static readonly BetaThermistor Beta3977 = new(10_000, 3977);

    // Source: published table of the 10 kΩ curve 3 part (ohms from memory); the equation meets it within 0.015 K.
    [Theory]
    [InlineData(32650, 0, 0.000)]
    [InlineData(19900, 10, 10.003)]
    [InlineData(12490, 20, 20.006)]
    [InlineData(10000, 25, 25.000)]
    [InlineData(8057, 30, 29.997)]
    [InlineData(5327, 40, 39.991)]
    [InlineData(3603, 50, 49.986)]
    [InlineData(2488, 60, 59.990)]
    public void Curve_3_by_Steinhart_and_Hart(double ohm, double tableC, double computedC)
    {
        var temperature = SteinhartHartThermistor.TenKilohmCurve3.TemperatureC(ohm);
        Assert.Equal(computedC, temperature.Value, 0.00051);
        Assert.Equal(tableC, temperature.Value, 0.015);
        Assert.False(temperature.Extrapolated);
    }

    // Source: the datasheet's forward fit of the 10 kΩ, B 3977 K part (ohms from memory); computed columns to 0.001 and 0.01 K.
    [Theory]
    [InlineData(32554.8, 0, -0.008, 0.76)]
    [InlineData(10000.2, 25, 25.000, 25.00)]
    [InlineData(5330.0, 40, 40.002, 39.76)]
    [InlineData(3605.3, 50, 50.003, 49.69)]
    [InlineData(2490.0, 60, 60.003, 59.69)]
    [InlineData(1256.4, 80, 80.001, 79.90)]
    [InlineData(677.3, 100, 99.998, 100.39)]
    public void The_B3977_part_by_four_constants_and_by_beta(double ohm, double tableC, double fourConstantsC, double betaC)
    {
        var four = RatioThermistor.TenKilohmB3977.TemperatureC(ohm).Value;
        Assert.Equal(fourConstantsC, four, 0.0015);
        Assert.Equal(tableC, four, 0.01);
        Assert.Equal(betaC, Beta3977.TemperatureC(ohm).Value, 0.006);
    }

    [Fact]
    public void Beta_runs_both_ways()
    {
        Assert.Equal(10_000, Beta3977.ResistanceOhm(25).Value, 1e-9);
        Assert.Equal(47, Beta3977.TemperatureC(Beta3977.ResistanceOhm(47).Value).Value, 1e-9);
    }

    [Fact]
    public void Outside_their_span_the_equations_are_flagged()
    {
        Assert.True(Beta3977.TemperatureC(600).Extrapolated);
        Assert.True(Beta3977.ResistanceOhm(-1).Extrapolated);
        Assert.True(SteinhartHartThermistor.TenKilohmCurve3.TemperatureC(100).Extrapolated);
        Assert.True(RatioThermistor.TenKilohmB3977.TemperatureC(100).Extrapolated);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_resistance_that_cannot_be_is_refused(double ohm)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Beta3977.TemperatureC(ohm));
        Assert.Throws<ArgumentOutOfRangeException>(() => SteinhartHartThermistor.TenKilohmCurve3.TemperatureC(ohm));
        Assert.Throws<ArgumentOutOfRangeException>(() => RatioThermistor.TenKilohmB3977.TemperatureC(ohm));
    }

    [Fact]
    public void A_resistance_the_constants_have_no_temperature_for_is_refused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => Beta3977.TemperatureC(1e-9));

    [Fact]
    public void A_part_that_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new BetaThermistor(0, 3977));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SteinhartHartThermistor(double.NaN, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RatioThermistor(-1, 0, 0, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Beta3977.ResistanceOhm(-273));
    }
}
