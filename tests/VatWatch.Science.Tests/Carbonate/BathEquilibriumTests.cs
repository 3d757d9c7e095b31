using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate;

public class BathEquilibriumTests
{
    // NBS/NIST primary standard, 0.025 mol/kg NaHCO3 + 0.025 mol/kg Na2CO3, 0 to 50 °C (Reference/ph-buffers.csv names its sources).
    [Fact]
    public void The_NBS_carbonate_buffer_is_met_within_0_02_from_0_to_50_C()
    {
        var rows = PhBufferTable.Rows("carbonate-0.025m").ToList();
        Assert.Equal(11, rows.Count);
        foreach (var (temperatureC, ph) in rows)
            Assert.Equal(ph, BathEquilibrium.Solve(new(0.075, 0.05), temperatureC).Ph, 0.012);
    }

    // Molal sodium and total carbonate, pH and ionic strength of a separate program (Python) with the same equations.
    [Theory]
    [InlineData(25, 0.075, 0.05, 10.0141, 0.09987)]
    [InlineData(45, 0.075, 0.05, 9.8629, 0.09963)]
    [InlineData(25, 0.02, 0.01, 11.0006, 0.02882)]
    [InlineData(45, 0.02, 0.01, 10.6151, 0.02808)]
    [InlineData(5, 0.04, 0.02, 11.6098, 0.05906)]
    [InlineData(45, 0.04, 0.02, 10.7373, 0.05730)]
    [InlineData(60, 0.04, 0.02, 10.5070, 0.05623)]
    [InlineData(25, 0.2, 0.1, 11.3590, 0.29661)]
    [InlineData(25, 0.01, 0.01, 8.2493, 0.01011)]
    [InlineData(25, 0.01, 0, 11.9537, 0.01000)]
    [InlineData(45, 0.01, 0, 11.3583, 0.01000)]
    public void Test_vectors_of_an_independent_program_are_met_to_every_digit(
        double temperatureC, double sodium, double carbonate, double ph, double ionicStrength)
    {
        var bath = BathEquilibrium.Solve(new(sodium, carbonate), temperatureC);
        Assert.Equal(ph, bath.Ph, 0.000051);
        Assert.Equal(ionicStrength, bath.IonicStrengthMolal, 0.0000051);
        Assert.False(bath.Extrapolated);
    }

    // Public page giving pH 11.37, 11.58 and 11.70 at 25 °C for 1, 5 and 10 % soda ash by mass.
    [Theory]
    [InlineData(1, 11.37)]
    [InlineData(5, 11.58)]
    [InlineData(10, 11.70)]
    public void Soda_ash_by_weight_percent_at_25_C_is_met_within_0_03(double percent, double ph)
    {
        var molal = 1000 * percent / (100 - percent) / 105.988;
        Assert.Equal(ph, BathEquilibrium.Solve(new(2 * molal, molal), 25).Ph, 0.03);
    }

    // The extended Debye-Hückel column at 25 °C, evaluated by the separate program; molal sodium and total carbonate.
    [Theory]
    [InlineData(0.1, 0.05, 11.260)]
    [InlineData(2, 1, 11.689)]
    [InlineData(0.1, 0.1, 8.132)]
    [InlineData(0.3, 0.2, 9.872)]
    [InlineData(0.1, 0, 12.881)]
    public void Other_solutions_at_25_C_agree_with_the_independent_program(double sodium, double carbonate, double ph) =>
        Assert.Equal(ph, BathEquilibrium.Solve(new(sodium, carbonate), 25).Ph, 0.00051);

    // pH at 5, 10 ... 60 °C of soda ash in g per litre of water measured at 20 °C; the separate program, to 0.01.
    [Theory]
    [InlineData(0.25, 11.22, 11.09, 10.96, 10.83, 10.72, 10.61, 10.50, 10.41, 10.31, 10.22, 10.14, 10.06)]
    [InlineData(0.5, 11.36, 11.22, 11.09, 10.97, 10.86, 10.75, 10.65, 10.56, 10.47, 10.38, 10.30, 10.22)]
    [InlineData(1, 11.48, 11.35, 11.22, 11.10, 10.99, 10.89, 10.79, 10.69, 10.60, 10.52, 10.44, 10.37)]
    [InlineData(2, 11.60, 11.47, 11.34, 11.22, 11.11, 11.00, 10.91, 10.81, 10.73, 10.65, 10.57, 10.50)]
    [InlineData(3, 11.66, 11.53, 11.40, 11.28, 11.17, 11.07, 10.97, 10.88, 10.79, 10.71, 10.64, 10.57)]
    [InlineData(5, 11.74, 11.61, 11.48, 11.36, 11.25, 11.15, 11.05, 10.96, 10.87, 10.79, 10.72, 10.65)]
    [InlineData(10, 11.84, 11.71, 11.58, 11.46, 11.35, 11.25, 11.15, 11.06, 10.97, 10.89, 10.82, 10.75)]
    [InlineData(20, 11.94, 11.80, 11.68, 11.56, 11.45, 11.34, 11.25, 11.16, 11.07, 10.99, 10.92, 10.85)]
    public void Soda_ash_against_temperature_agrees_with_the_table(double gramsPerLitre, params double[] ph)
    {
        var bath = default(BathComposition).Add(AlkaliProduct.SodaAsh, gramsPerLitre, 1, 20);
        for (var i = 0; i < ph.Length; i++)
            Assert.Equal(ph[i], BathEquilibrium.Solve(bath, 5 * (i + 1)).Ph, 0.0051);
    }

    // pH at 5, 15, 25, 35, 45 and 60 °C; the separate program, to 0.01.
    [Theory]
    [InlineData("sodium bicarbonate", 1, 8.44, 8.33, 8.24, 8.18, 8.14, 8.10)]
    [InlineData("sodium bicarbonate", 5, 8.37, 8.25, 8.17, 8.10, 8.06, 8.03)]
    [InlineData("lye", 0.1, 12.11, 11.72, 11.37, 11.06, 10.78, 10.41)]
    [InlineData("lye", 1, 13.06, 12.68, 12.33, 12.02, 11.73, 11.36)]
    public void Bicarbonate_and_lye_against_temperature_agree_with_the_table(string name, double gramsPerLitre, params double[] ph)
    {
        var product = name == AlkaliProduct.Lye.Name ? AlkaliProduct.Lye : AlkaliProduct.Bicarbonate;
        var bath = default(BathComposition).Add(product, gramsPerLitre, 1, 20);
        double[] temperatures = [5, 15, 25, 35, 45, 60];
        for (var i = 0; i < ph.Length; i++)
            Assert.Equal(ph[i], BathEquilibrium.Solve(bath, temperatures[i]).Ph, 0.0061);
    }

    [Fact]
    public void Pure_water_is_neutral()
    {
        var water = BathEquilibrium.Solve(default, 25);
        Assert.Equal(-CarbonateConstants.Log10KWater(25) / 2, water.Ph, 1e-6);
    }

    // Unmodelled salt of 0.1 eq/kg lowers pH by about 0.07 at 45 °C (separate program, as NaCl).
    [Fact]
    public void A_neutral_salt_lowers_the_pH_of_a_soda_ash_bath()
    {
        var bath = default(BathComposition).Add(AlkaliProduct.SodaAsh, 2, 1, 45);
        var salted = new BathComposition(bath.SodiumMolal + 0.1, bath.TotalCarbonateMolal, 0.1);
        Assert.Equal(-0.07, BathEquilibrium.Solve(salted, 45).Ph - BathEquilibrium.Solve(bath, 45).Ph, 0.015);
    }

    [Fact]
    public void Every_solution_balances_its_charges()
    {
        foreach (var temperatureC in new[] { 0.0, 20, 45, 60, 95 })
            foreach (var bath in new BathComposition[] { new(0.04, 0.02), new(0.04, 0.03, 0.005), new(0.001, 0.5), new(0.02, 0.01, 0, 0.01) })
            {
                var s = BathEquilibrium.Solve(bath, temperatureC);
                Assert.Equal(0, bath.SodiumMolal - bath.StrongAcidMolal + s.NetCharge, 1e-9);
                Assert.Equal(bath.TotalCarbonateMolal, s.CarbonDioxideMolal + s.BicarbonateMolal + s.CarbonateMolal, 1e-12);
                Assert.Equal(bath.CalciumMolal, s.CalciumMolal + s.CalciumHydroxideMolal, 1e-12);
            }
    }

    [Theory]
    [InlineData(60, 0.04, 0.02, false)]
    [InlineData(60.5, 0.04, 0.02, true)]
    [InlineData(25, 2.0, 1.0, false)]
    [InlineData(25, 4.0, 2.0, true)]
    public void Results_outside_the_checked_range_say_so(double temperatureC, double sodium, double carbonate, bool extrapolated) =>
        Assert.Equal(extrapolated, BathEquilibrium.Solve(new(sodium, carbonate), temperatureC).Extrapolated);

    [Fact]
    public void A_composition_more_acid_than_pH_2_is_refused_with_its_alkalinity()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => BathEquilibrium.Solve(new(0.01, 0.01, 0.5), 25));
        Assert.Contains("alkalinity of -0.49 eq/kg", error.Message, StringComparison.Ordinal);
    }
}
