using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat.Model;

public class VatHeatCapacityTests
{
    // 124.8 kg of liquor at 4.1805 kJ/(kg·K), 6 kg of plastic at 1.9, 2 kJ/K of gear: 535 kJ/K by a separate program (Python).
    [Fact]
    public void Liquor_shell_and_gear_add_up()
    {
        var litres = 124.824 / WaterDensity.KgPerM3(18) * 1000;
        Assert.Equal(535_226, VatHeatCapacity.LiquorJPerK(litres, 18, 46) + VatHeatCapacity.ShellJPerK(6), 40.0);
    }

    // Lossless rates of that vat, the same program.
    [Theory]
    [InlineData(1000, 6.73)]
    [InlineData(1440, 9.69)]
    [InlineData(1500, 10.09)]
    public void Lossless_rates_follow(double watts, double kelvinPerHour) =>
        Assert.Equal(kelvinPerHour, 3600 * new FirstOrderVat(watts, 0, 535_226, 20).RateKPerS(30), 0.0051);

    [Fact]
    public void Impossible_amounts_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => VatHeatCapacity.LiquorJPerK(0, 18, 46));
        Assert.Throws<ArgumentOutOfRangeException>(() => VatHeatCapacity.ShellJPerK(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mixing.TemperatureC(1000, 46, -1, 20));
    }
}
