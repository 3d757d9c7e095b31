using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate;

public class CarbonDioxideUptakeTests
{
    // mmol/h through 0.196 m² at 420 ppm, bath of 2 g/L soda ash: a separate program (Python) with the same film theory, two digits.
    [Theory]
    [InlineData(25, 10.0, 0.45)]
    [InlineData(25, 11.0, 1.4)]
    [InlineData(45, 10.0, 1.4)]
    [InlineData(45, 10.5, 2.5)]
    [InlineData(45, 11.0, 4.5)]
    public void Uptake_agrees_with_an_independent_program(double temperatureC, double ph, double mmolPerHour)
    {
        var logged = default(BathComposition).Add(AlkaliProduct.SodaAsh, 2, 1, temperatureC);
        var bath = BathEquilibrium.Solve(MeasuredBath.WithAcidFitted(ph, logged, temperatureC), temperatureC);
        var uptake = CarbonDioxideUptake.Of(bath.HydroxideMolal, temperatureC, 0.196);
        Assert.Equal(mmolPerHour, uptake.MmolPerHour, 0.1 * mmolPerHour);
        Assert.Equal(uptake.MmolPerHour / 2, uptake.LowMmolPerHour, 1e-12);
        Assert.Equal(uptake.MmolPerHour * 2, uptake.HighMmolPerHour, 1e-12);
    }

    // Without reaction the film alone limits: kL times Henry's solubility, 10^-1.468 × 420e-6 mol/kg at 25 °C.
    [Fact]
    public void Without_hydroxide_only_physical_dissolution_is_left() =>
        Assert.Equal(1e-5 * Math.Pow(10, -1.46794) * 420e-6 * 997.05 * 3600 * 1000, CarbonDioxideUptake.Of(0, 25, 1).MmolPerHour, 1e-4);

    [Fact]
    public void A_covered_vat_takes_up_nothing() => Assert.Equal(0, CarbonDioxideUptake.Of(1e-3, 45, 0).MmolPerHour);
}
