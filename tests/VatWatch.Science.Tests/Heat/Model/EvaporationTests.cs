using VatWatch.Science.Heat;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat.Model;

public class EvaporationTests
{
    // Still air of 20 °C and 50 %: kg/(h·m²) after Carrier at 0 and 0.1 m/s, after Shah, and by the heat/mass transfer analogy; a separate program (Python).
    public static TheoryData<double, double, double, double, double> Table => new()
    {
        { 30, 0.41, 0.44, 0.33, 0.29 },
        { 35, 0.59, 0.64, 0.53, 0.48 },
        { 38, 0.73, 0.79, 0.68, 0.63 },
        { 42, 0.94, 1.02, 0.93, 0.87 },
        { 46, 1.20, 1.30, 1.24, 1.17 },
        { 49, 1.42, 1.55, 1.53, 1.46 },
        { 52, 1.68, 1.83, 1.85, 1.79 },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void Both_correlations_agree_with_an_independent_program(double waterC, double still, double moving, double shah, double analogy)
    {
        Assert.Equal(still, Evaporation.CarrierKgPerM2H(waterC, 20, 0.5, 0), 0.0061);
        Assert.Equal(moving, Evaporation.CarrierKgPerM2H(waterC, 20, 0.5, 0.1), 0.0061);
        Assert.Equal(shah, Evaporation.ShahKgPerM2H(waterC, 20, 0.5), 0.0061);
        Assert.InRange(analogy, 0.85 * Evaporation.ShahKgPerM2H(waterC, 20, 0.5), 1.0 * Evaporation.ShahKgPerM2H(waterC, 20, 0.5));
    }

    [Fact]
    public void Test_vectors_at_46_C_are_met()
    {
        Assert.Equal(1.196, Evaporation.CarrierKgPerM2H(46, 20, 0.5, 0), 0.00051);
        Assert.Equal(1.244, Evaporation.ShahKgPerM2H(46, 20, 0.5), 0.00051);
        Assert.Equal(10_099, SaturationPressure.Pa(46), 1.0);
        Assert.Equal(2391.7, WaterHeat.LatentHeatKjPerKg(46), 0.051);
    }

    // Inch-pound form of Carrier's constants, from memory: 95 + 0.425 V in Btu/(h·ft²·inHg), V in ft/min.
    [Fact]
    public void Carrier_agrees_with_its_inch_pound_form()
    {
        const double speedMPerS = 0.2;
        var inchesOfMercury = (SaturationPressure.Pa(46) - 0.5 * SaturationPressure.Pa(20)) / 3386.39;
        var btuPerHourFt2 = (95 + 0.425 * speedMPerS * 196.85) * inchesOfMercury;
        var kilogramPerM2H = btuPerHourFt2 * 1055.06 / 0.09290304 / 1000 / WaterHeat.LatentHeatKjPerKg(46);
        Assert.Equal(kilogramPerM2H, Evaporation.CarrierKgPerM2H(46, 20, 0.5, speedMPerS), 0.01 * kilogramPerM2H);
    }

    // 0.50 m across: W lost by evaporation, the same separate program.
    [Theory]
    [InlineData(30, 43)]
    [InlineData(38, 90)]
    [InlineData(46, 162)]
    [InlineData(52, 240)]
    public void Power_lost_by_an_open_vat_agrees(double liquorC, double watts) =>
        Assert.Equal(watts, EffectiveLoss.EvaporationW(Math.PI / 16, liquorC, 20, 0.5, Lid.Off), 1.0);

    [Fact]
    public void Water_cooler_than_the_dew_point_does_not_evaporate()
    {
        Assert.Equal(0, Evaporation.ShahKgPerM2H(10, 25, 0.9));
        Assert.Equal(0, Evaporation.CarrierKgPerM2H(10, 25, 0.9, 0));
    }

    [Fact]
    public void It_grows_up_to_boiling_and_refuses_the_impossible()
    {
        var before = 0.0;
        for (var t = 25.0; t <= 100; t += 0.5)
        {
            var now = Evaporation.ShahKgPerM2H(t, 20, 0.5);
            Assert.True(now >= before && double.IsFinite(now), $"{t} °C");
            before = now;
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => Evaporation.ShahKgPerM2H(46, 20, 50));
        Assert.Throws<ArgumentOutOfRangeException>(() => Evaporation.ShahKgPerM2H(101, 20, 0.5));
    }
}
