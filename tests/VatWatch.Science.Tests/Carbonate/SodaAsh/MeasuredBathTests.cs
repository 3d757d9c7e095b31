using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate.SodaAsh;

public class MeasuredBathTests
{
    // Total carbonate in mmol/kg at 45 °C for an alkalinity in meq/kg and a pH: a separate program (Python).
    [Theory]
    [InlineData(1, 8.0, 1.007)]
    [InlineData(1, 9.0, 0.901)]
    [InlineData(1, 9.5, 0.735)]
    [InlineData(2, 8.0, 2.018)]
    [InlineData(2, 9.0, 1.835)]
    [InlineData(2, 9.5, 1.569)]
    [InlineData(4, 8.0, 4.036)]
    [InlineData(4, 9.0, 3.694)]
    [InlineData(4, 9.5, 3.220)]
    [InlineData(38.113, 8.0, 38.3)]
    [InlineData(38.113, 9.0, 34.7)]
    [InlineData(38.113, 9.5, 30.1)]
    [InlineData(38.113, 10.0, 24.5)]
    public void Total_carbonate_from_pH_and_alkalinity_agrees_with_an_independent_program(double alkalinity, double ph, double carbonate)
    {
        Assert.True(MeasuredBath.TryTotalCarbonate(ph, alkalinity / 1000, 45, out var found));
        Assert.Equal(carbonate, 1000 * found.Value, alkalinity > 10 ? 0.051 : 0.00051);
    }

    // Acid in meq/kg that brings 2 g/L of soda ash to a pH at 45 °C: the same separate program.
    [Theory]
    [InlineData(8.0, 19.2)]
    [InlineData(9.0, 17.2)]
    [InlineData(9.5, 14.0)]
    [InlineData(10.0, 8.4)]
    public void Acid_from_pH_and_the_log_agrees_with_an_independent_program(double ph, double acid)
    {
        var logged = default(BathComposition).Add(AlkaliProduct.SodaAsh, 2, 1, 45);
        Assert.Equal(acid, 1000 * MeasuredBath.StrongAcidMolal(ph, logged, 45).Value, 0.051);
    }

    [Fact]
    public void Solving_and_inverting_return_to_the_start()
    {
        foreach (var temperatureC in new[] { 5.0, 25, 45, 60 })
            foreach (var acid in new[] { 0, 0.004, 0.011, -0.003 })
            {
                var bath = new BathComposition(0.03, 0.018, acid);
                var ph = BathEquilibrium.Solve(bath, temperatureC).Ph;
                Assert.Equal(acid, MeasuredBath.StrongAcidMolal(ph, bath, temperatureC).Value, 1e-8);
                var plain = BathEquilibrium.Solve(new(0.03, 0.018), temperatureC).Ph;
                Assert.True(MeasuredBath.TryTotalCarbonate(plain, 0.03, temperatureC, out var carbonate));
                Assert.Equal(0.018, carbonate.Value, 1e-8);
            }
    }

    [Fact]
    public void A_pH_that_even_lye_of_that_alkalinity_does_not_reach_has_no_carbonate() =>
        Assert.False(MeasuredBath.TryTotalCarbonate(12, 0.001, 25, out _));

    [Fact]
    public void An_impossible_pH_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MeasuredBath.TryTotalCarbonate(15, 0.02, 25, out _));
}
