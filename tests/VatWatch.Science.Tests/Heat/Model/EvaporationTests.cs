using VatWatch.Science.Heat;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat.Model;

public class EvaporationTests
{
    // Still air of 20 °C and 50 %: kg/(h·m²) after Shah, and by the heat/mass transfer analogy; a separate program (Python).
    public static TheoryData<double, double, double> Table => new()
    {
        { 30, 0.33, 0.29 },
        { 35, 0.53, 0.48 },
        { 38, 0.68, 0.63 },
        { 42, 0.93, 0.87 },
        { 46, 1.24, 1.17 },
        { 49, 1.53, 1.46 },
        { 52, 1.85, 1.79 },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void The_correlation_agrees_with_an_independent_program(double waterC, double shah, double analogy)
    {
        Assert.Equal(shah, Evaporation.ShahKgPerM2H(waterC, 20, 0.5), 0.0061);
        Assert.InRange(analogy, 0.85 * Evaporation.ShahKgPerM2H(waterC, 20, 0.5), 1.0 * Evaporation.ShahKgPerM2H(waterC, 20, 0.5));
    }

    [Fact]
    public void Test_vectors_at_46_C_are_met()
    {
        Assert.Equal(1.244, Evaporation.ShahKgPerM2H(46, 20, 0.5), 0.00051);
        Assert.Equal(10_099, SaturationPressure.Pa(46), 1.0);
        Assert.Equal(2391.7, WaterHeat.LatentHeatKjPerKg(46), 0.051);
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
