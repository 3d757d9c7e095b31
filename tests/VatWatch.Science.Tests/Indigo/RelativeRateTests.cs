using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// Expected figures: Arrhenius with 64 kJ/mol (Vuorema et al. 2008) and 76.2 kJ/mol (Kawagoe and Robinson 1981), 45 °C = 1, to 0.01.
public sealed class RelativeRateTests
{
    [Theory]
    [InlineData(20, 0.13, 0.09)]
    [InlineData(25, 0.20, 0.14)]
    [InlineData(38, 0.58, 0.52)]
    [InlineData(45, 1.00, 1.00)]
    [InlineData(49, 1.35, 1.43)]
    [InlineData(55, 2.09, 2.41)]
    [InlineData(60, 2.97, 3.66)]
    public void Rates_relative_to_45C(double temperatureC, double sugar, double dithionite)
    {
        Assert.Equal(sugar, RelativeRate.Arrhenius(RelativeRate.GlucoseKilojoulesPerMole, temperatureC, 45), 0.0051);
        Assert.Equal(dithionite, RelativeRate.DithioniteInAir(temperatureC, 45).Value, 0.0051);
    }

    [Theory]
    [InlineData(RelativeRate.DithioniteAirKilojoulesPerMole, 2.47)]
    [InlineData(RelativeRate.GlucoseKilojoulesPerMole, 2.14)]
    public void From_40_to_50C_the_rate_more_than_doubles(double activation, double q10)
        => Assert.Equal(q10, RelativeRate.Arrhenius(activation, 50, 40), 0.0051);

    [Fact]
    public void Q10_is_the_factor_for_ten_kelvin_and_its_root_for_five()
    {
        Assert.Equal(2.3, RelativeRate.FromQ10(RelativeRate.ThioureaDioxideQ10, 50, 40), 1e-12);
        Assert.Equal(Math.Sqrt(2.3), RelativeRate.FromQ10(2.3, 45, 40), 1e-12);
        Assert.Equal(1 / 2.3, RelativeRate.FromQ10(2.3, 30, 40), 1e-12);
    }

    [Theory]
    [InlineData(30, 20, false)]
    [InlineData(45, 20, true)]
    [InlineData(30, 45, true)]
    public void Dithionite_is_flagged_outside_the_temperatures_it_was_measured_at(double temperatureC, double referenceC, bool extrapolated)
        => Assert.Equal(extrapolated, RelativeRate.DithioniteInAir(temperatureC, referenceC).Extrapolated);

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RelativeRate.Arrhenius(-1, 20, 45));
        Assert.Throws<ArgumentOutOfRangeException>(() => RelativeRate.FromQ10(0, 20, 45));
        Assert.Throws<ArgumentOutOfRangeException>(() => RelativeRate.FromQ10(2, double.NaN, 45));
    }
}
