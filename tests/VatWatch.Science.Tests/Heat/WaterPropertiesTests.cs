using VatWatch.Science.Heat;

namespace VatWatch.Science.Tests.Heat;

public class WaterPropertiesTests
{
    // Verification values of IAPWS R7-97(2012), table 35: every digit.
    [Theory]
    [InlineData(300, 0.353658941e-2)]
    [InlineData(500, 0.263889776e1)]
    [InlineData(600, 0.123443146e2)]
    public void Saturation_pressure_meets_the_release_to_every_digit(double kelvin, double megapascal) =>
        Assert.Equal(megapascal, SaturationPressure.Pa(kelvin - 273.15) / 1e6, 0.51e-9 * Math.Pow(10, Math.Floor(Math.Log10(megapascal)) + 1));

    // Table 36 of the same release.
    [Theory]
    [InlineData(0.1, 372.755919)]
    [InlineData(1, 453.035632)]
    [InlineData(10, 584.149488)]
    public void Boiling_temperature_meets_the_release_to_every_digit(double megapascal, double kelvin) =>
        Assert.Equal(kelvin, SaturationPressure.BoilingC(megapascal * 1e6) + 273.15, 0.51e-6);

    // Heights of the standard atmosphere (ISO 2533, ICAO Doc 7488) for round pressures, and the saturation temperatures that printed steam tables give for these (from memory).
    [Theory]
    [InlineData(0, 101.325, 99.97)]
    [InlineData(988.5, 90, 96.69)]
    [InlineData(1949, 80, 93.49)]
    [InlineData(3012.2, 70, 89.93)]
    [InlineData(4206.4, 60, 85.93)]
    [InlineData(5574.4, 50, 81.32)]
    public void Water_boils_at_a_height_as_the_standard_atmosphere_and_the_steam_tables_say(double metres, double kilopascal, double boilingC)
    {
        Assert.Equal(boilingC, SaturationPressure.BoilingC(kilopascal * 1000), 0.011);
        Assert.Equal(boilingC, SaturationPressure.BoilingAtAltitudeC(metres), 0.02);
    }

    // Density after Kell 1975 (five independent implementations agree), cp, vapour pressure and latent heat of IAPWS-IF97 by a separate program.
    [Theory]
    [InlineData(0, 999.840, 4.2194, 611.21, 2500.9)]
    [InlineData(5, 999.964, 4.2049, 872.57, 2489.1)]
    [InlineData(10, 999.700, 4.1954, 1228.18, 2477.2)]
    [InlineData(15, 999.100, 4.1891, 1705.74, 2465.4)]
    [InlineData(20, 998.204, 4.1848, 2339.21, 2453.6)]
    [InlineData(25, 997.045, 4.1819, 3169.75, 2441.7)]
    [InlineData(30, 995.647, 4.1800, 4246.69, 2429.8)]
    [InlineData(35, 994.032, 4.1789, 5628.62, 2417.9)]
    [InlineData(40, 992.216, 4.1786, 7384.43, 2406.0)]
    [InlineData(45, 990.213, 4.1788, 9594.39, 2394.0)]
    [InlineData(50, 988.036, 4.1796, 12351.3, 2382.0)]
    [InlineData(55, 985.695, 4.1809, 15761.4, 2369.9)]
    [InlineData(60, 983.199, 4.1828, 19945.8, 2357.7)]
    [InlineData(65, 980.555, 4.1852, 25041.1, 2345.4)]
    [InlineData(70, 977.770, 4.1881, 31200.6, 2333.1)]
    [InlineData(75, 974.849, 4.1915, 38595.4, 2320.6)]
    [InlineData(80, 971.798, 4.1955, 47414.7, 2308.1)]
    [InlineData(85, 968.620, 4.2000, 57867.5, 2295.4)]
    [InlineData(90, 965.320, 4.2050, 70182.4, 2282.6)]
    [InlineData(95, 961.900, 4.2106, 84608.9, 2269.6)]
    [InlineData(100, 958.364, 4.2163, 101418.0, 2256.5)]
    public void Water_properties_agree_with_the_steam_tables(
        double temperatureC, double density, double specificHeat, double pressurePa, double latentHeat)
    {
        Assert.Equal(density, WaterDensity.KgPerM3(temperatureC), 0.00051);
        Assert.Equal(specificHeat, WaterHeat.SpecificHeatKjPerKgK(temperatureC), temperatureC < 100 ? 0.00036 : 0.00065);
        Assert.Equal(pressurePa, SaturationPressure.Pa(temperatureC), pressurePa < 1e4 ? 0.0051 : 0.06);
        Assert.Equal(latentHeat, WaterHeat.LatentHeatKjPerKg(temperatureC), 0.65);
    }

    [Theory]
    [InlineData(18, 998.5956, 0.000051)]
    [InlineData(45, 990.213, 0.00051)]
    public void Density_meets_the_digits_of_an_independent_evaluation_of_Kell(double temperatureC, double density, double tolerance) =>
        Assert.Equal(density, WaterDensity.KgPerM3(temperatureC), tolerance);

    // Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783: an independent equation for the same quantity.
    [Fact]
    public void Vapour_pressure_agrees_with_Wagner_and_Pruss_within_0_02_percent()
    {
        for (var t = 1.0; t <= 100; t++)
        {
            var kelvin = t + 273.15;
            var v = 1 - kelvin / 647.096;
            var sum = -7.85951783 * v + 1.84408259 * Math.Pow(v, 1.5) - 11.7866497 * Math.Pow(v, 3) + 22.6807411 * Math.Pow(v, 3.5)
                - 15.9618719 * Math.Pow(v, 4) + 1.80122502 * Math.Pow(v, 7.5);
            var pascal = 22.064e6 * Math.Exp(647.096 / kelvin * sum);
            Assert.Equal(pascal, SaturationPressure.Pa(t), 2e-4 * pascal);
        }
    }

    [Fact]
    public void Pressure_and_boiling_temperature_are_each_others_inverse()
    {
        for (var t = 1.0; t < 370; t += 7)
            Assert.Equal(t, SaturationPressure.BoilingC(SaturationPressure.Pa(t)), 1e-7);
    }

    [Fact]
    public void Impossible_temperatures_are_refused_in_a_sentence()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => WaterDensity.KgPerM3(-3));
        Assert.Contains("-3 °C; wanted 0 to 150 °C", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterHeat.SpecificHeatKjPerKgK(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturationPressure.Pa(400));
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturationPressure.BoilingC(0));
    }
}
