using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate;

public class PhAtTemperatureTests
{
    // Slopes -0.022 and -0.017 pH/K at 25 and 45 °C: a separate program (Python).
    [Theory]
    [InlineData(25, -0.022)]
    [InlineData(45, -0.017)]
    public void A_soda_ash_bath_loses_pH_as_it_warms(double temperatureC, double perK)
    {
        var bath = default(BathComposition).Add(AlkaliProduct.SodaAsh, 2, 1, 20);
        var slope = (BathEquilibrium.Solve(bath, temperatureC + 1).Ph - BathEquilibrium.Solve(bath, temperatureC - 1).Ph) / 2;
        Assert.Equal(perK, slope, 0.0007);
    }

    // A recipe of pH 11 read at room temperature means about 10.6 at 45 °C.
    [Fact]
    public void A_recipe_at_room_temperature_means_less_in_the_warm_vat()
    {
        var logged = default(BathComposition).Add(AlkaliProduct.SodaAsh, 2, 1, 20);
        Assert.Equal(10.6, PhAtTemperature.Of(11, 23, logged, 45).Value, 0.05);
    }

    [Fact]
    public void There_and_back_again_is_the_same_pH()
    {
        var logged = new BathComposition(0.05, 0.03);
        var at25 = PhAtTemperature.Of(9.62, 44, logged, 25);
        Assert.True(at25.Value > 9.62);
        Assert.Equal(9.62, PhAtTemperature.Of(at25.Value, 25, logged, 44).Value, 1e-7);
        Assert.True(PhAtTemperature.Of(9.62, 70, logged, 25).Extrapolated);
    }
}
