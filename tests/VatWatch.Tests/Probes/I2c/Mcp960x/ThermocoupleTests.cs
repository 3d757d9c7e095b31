using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c.Mcp960x;

public sealed class ThermocoupleTests
{
    // NIST Monograph 175, tables of type K and type T.
    [Fact]
    public void What_the_chip_that_is_not_there_works_with_meets_the_published_tables()
    {
        Assert.Equal(20.644, Thermocouple.K.Millivolts(500), 0.0006);
        Assert.Equal(500, Thermocouple.K.TemperatureC(20.644), 0.06);
        Assert.Equal(0.9597, Thermocouple.K.Millivolts(24), 0.00006);
        Assert.Equal(20.872, Thermocouple.T.Millivolts(400), 0.0006);
        Assert.Equal(400, Thermocouple.T.TemperatureC(20.872), 0.04);
    }
}
