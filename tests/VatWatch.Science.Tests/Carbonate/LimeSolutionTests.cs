using VatWatch.Science.Carbonate;

namespace VatWatch.Science.Tests.Carbonate;

public class LimeSolutionTests
{
    // Molality of lime saturated at 25 °C, as in the secondary standard.
    private const double StandardMolal = 0.0203;

    // Calcium hydroxide saturated at 25 °C, secondary pH standard, 0 to 60 °C (Reference/ph-buffers.csv names its sources).
    [Fact]
    public void The_lime_standard_is_met_within_0_05_from_0_to_60_C()
    {
        var rows = PhBufferTable.Rows("caoh2-sat25").ToList();
        Assert.Equal(13, rows.Count);
        foreach (var (temperatureC, ph) in rows)
            Assert.Equal(ph, BathEquilibrium.Solve(new(0, 0, 0, StandardMolal), temperatureC).Ph, 0.04);
    }

    // Published temperature coefficient of the saturated standard: -0.033 pH/K at 25 °C.
    [Fact]
    public void The_temperature_slope_of_the_lime_standard_agrees_with_the_published_one() =>
        Assert.Equal(-0.033, (Ph(26, StandardMolal) - Ph(24, StandardMolal)) / 2, 0.0005);

    // Published dilution value of the standard: -0.28 for one part of water to one of buffer.
    [Fact]
    public void Dilution_with_as_much_water_lowers_pH_by_about_the_published_value() =>
        Assert.Equal(-0.28, Ph(25, StandardMolal / 2) - Ph(25, StandardMolal), 0.025);

    // pH and grams per kg of a separate program (Python) with the same constants.
    [Theory]
    [InlineData(5, 13.25, 1.71)]
    [InlineData(15, 12.84, 1.62)]
    [InlineData(25, 12.46, 1.50)]
    [InlineData(35, 12.11, 1.36)]
    [InlineData(45, 11.79, 1.22)]
    [InlineData(60, 11.34, 1.02)]
    public void Saturated_lime_agrees_with_an_independent_program(double temperatureC, double ph, double gramsPerKg)
    {
        var lime = LimeSolution.SaturatedAt(temperatureC);
        Assert.True(lime.Saturated);
        Assert.Equal(ph, lime.Bath.Ph, 0.006);
        Assert.Equal(gramsPerKg, lime.DissolvedGramsPerKg, 0.0061);
    }

    [Fact]
    public void Less_than_saturates_dissolves_whole()
    {
        var lime = LimeSolution.Of(0.005, 25);
        Assert.False(lime.Saturated);
        Assert.Equal(0.005, lime.DissolvedMolal);
        Assert.Equal(LimeSolution.SaturatedAt(25).DissolvedMolal, LimeSolution.Of(0.05, 25).DissolvedMolal, 1e-9);
    }

    private static double Ph(double temperatureC, double molal) => BathEquilibrium.Solve(new(0, 0, 0, molal), temperatureC).Ph;
}
