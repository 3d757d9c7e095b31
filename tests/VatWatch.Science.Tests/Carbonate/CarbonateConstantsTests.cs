using VatWatch.Science.Carbonate;

namespace VatWatch.Science.Tests.Carbonate;

public class CarbonateConstantsTests
{
    // Plummer and Busenberg 1982 and the Kw set of Nordstrom et al. 1990, evaluated by a separate program (Python).
    [Theory]
    [InlineData(25, -6.35186, -10.32885, -1.46794, -13.99953)]
    [InlineData(45, -6.28941, -10.19583, -1.66956, -13.40575)]
    public void Constants_agree_with_an_independent_evaluation(double temperatureC, double k1, double k2, double kHenry, double kWater)
    {
        Assert.Equal(k1, CarbonateConstants.Log10K1(temperatureC), 5e-6);
        Assert.Equal(k2, CarbonateConstants.Log10K2(temperatureC), 5e-6);
        Assert.Equal(kHenry, CarbonateConstants.Log10KHenry(temperatureC), 5e-6);
        Assert.Equal(kWater, CarbonateConstants.Log10KWater(temperatureC), 5e-6);
    }

    // pK1, pK2, pKH, pKw, A, B, dielectric constant of the same independent evaluation.
    [Theory]
    [InlineData(0, 6.579, 10.629, 1.108, 14.942, 0.4918, 0.3248, 87.74)]
    [InlineData(5, 6.516, 10.554, 1.192, 14.732, 0.4953, 0.3256, 85.76)]
    [InlineData(10, 6.463, 10.488, 1.269, 14.534, 0.4989, 0.3264, 83.83)]
    [InlineData(15, 6.419, 10.428, 1.341, 14.346, 0.5027, 0.3271, 81.95)]
    [InlineData(20, 6.382, 10.376, 1.407, 14.168, 0.5067, 0.3279, 80.10)]
    [InlineData(25, 6.352, 10.329, 1.468, 14.000, 0.5108, 0.3287, 78.30)]
    [InlineData(30, 6.328, 10.288, 1.524, 13.839, 0.5151, 0.3294, 76.55)]
    [InlineData(35, 6.310, 10.252, 1.577, 13.688, 0.5196, 0.3302, 74.83)]
    [InlineData(40, 6.297, 10.222, 1.625, 13.543, 0.5243, 0.3310, 73.15)]
    [InlineData(45, 6.289, 10.196, 1.670, 13.406, 0.5292, 0.3318, 71.51)]
    [InlineData(50, 6.286, 10.174, 1.711, 13.275, 0.5342, 0.3326, 69.91)]
    [InlineData(55, 6.286, 10.157, 1.749, 13.151, 0.5394, 0.3334, 68.34)]
    [InlineData(60, 6.290, 10.144, 1.784, 13.032, 0.5449, 0.3342, 66.81)]
    public void Constants_and_prefactors_agree_over_the_whole_range(
        double temperatureC, double pk1, double pk2, double pkHenry, double pkWater, double a, double b, double dielectric)
    {
        var law = DebyeHuckel.At(temperatureC);
        Assert.Equal(pk1, -CarbonateConstants.Log10K1(temperatureC), 0.00051);
        Assert.Equal(pk2, -CarbonateConstants.Log10K2(temperatureC), 0.00051);
        Assert.Equal(pkHenry, -CarbonateConstants.Log10KHenry(temperatureC), 0.00051);
        Assert.Equal(pkWater, -CarbonateConstants.Log10KWater(temperatureC), 0.00051);
        Assert.Equal(a, law.A, 0.000051);
        Assert.Equal(b, law.BPerAngstrom, 0.000051);
        Assert.Equal(dielectric, DebyeHuckel.DielectricConstant(temperatureC), 0.0051);
    }

    [Fact]
    public void Ionisation_of_water_agrees_with_two_other_published_equations_within_0_02()
    {
        for (var temperatureC = 0.0; temperatureC <= 60; temperatureC += 5)
        {
            var pKw = -CarbonateConstants.Log10KWater(temperatureC);
            Assert.Equal(MarshallFranck(temperatureC), pKw, 0.02);
            Assert.Equal(HarnedOwen(temperatureC), pKw, 0.02);
        }
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(100.1)]
    [InlineData(double.NaN)]
    public void A_temperature_at_which_the_bath_is_not_liquid_is_refused(double temperatureC)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => CarbonateConstants.Log10K1(temperatureC));
        Assert.Contains("wanted 0 to 100 °C", error.Message, StringComparison.Ordinal);
    }

    // Marshall and Franck, J. Phys. Chem. Ref. Data 10 (1981) 295.
    private static double MarshallFranck(double temperatureC)
    {
        var kelvin = temperatureC + 273.15;
        var logDensity = Math.Log10(WaterDensity.KgPerM3(temperatureC) / 1000);
        return 4.098 + 3245.2 / kelvin - 2.2362e5 / (kelvin * kelvin) + 3.984e7 / Math.Pow(kelvin, 3)
            - (13.957 - 1262.3 / kelvin + 8.5641e5 / (kelvin * kelvin)) * logDensity;
    }

    // Harned and Owen, 0 to 60 °C, from memory.
    private static double HarnedOwen(double temperatureC) =>
        4470.99 / (temperatureC + 273.15) - 6.0875 + 0.01706 * (temperatureC + 273.15);
}
