using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate;

public class BathCompositionTests
{
    // Molar masses from the IUPAC atomic weights; 1 kg of water is 1 / 0.998204 L at 20 °C (Kell).
    [Fact]
    public void One_mole_of_each_soda_ash_weighs_its_molar_mass()
    {
        foreach (var product in new[] { AlkaliProduct.SodaAsh, AlkaliProduct.SodaAshDecahydrate })
        {
            var bath = default(BathComposition).Add(product, product.MolarMassGramsPerMol, 1 / 0.998204, 20);
            Assert.Equal(1, bath.TotalCarbonateMolal, 1e-6);
            Assert.Equal(2, bath.SodiumMolal, 2e-6);
        }

        Assert.Equal(180.15, AlkaliProduct.SodaAshDecahydrate.MolarMassGramsPerMol - AlkaliProduct.SodaAsh.MolarMassGramsPerMol, 0.05);
    }

    [Fact]
    public void Grams_and_molality_are_each_others_inverse() =>
        Assert.Equal(35, AlkaliProduct.Lye.Grams(AlkaliProduct.Lye.Molality(35, 60, 45), 60, 45), 1e-10);

    [Fact]
    public void Lime_in_a_soda_ash_bath_leaves_lye()
    {
        var bath = new BathComposition(0.04, 0.02).AddMolal(AlkaliProduct.Lime, 0.005);
        Assert.Equal(0.04, bath.SodiumMolal, 1e-15);
        Assert.Equal(0.015, bath.TotalCarbonateMolal, 1e-15);
        Assert.Equal(0, bath.CalciumMolal);
        Assert.True(BathEquilibrium.Solve(bath, 45).Ph > BathEquilibrium.Solve(new(0.04, 0.02), 45).Ph);
    }

    [Fact]
    public void Lime_beyond_the_carbonate_stays_as_calcium()
    {
        var bath = new BathComposition(0.02, 0.01).AddMolal(AlkaliProduct.Lime, 0.012);
        Assert.Equal(0, bath.TotalCarbonateMolal, 1e-15);
        Assert.Equal(0.002, bath.CalciumMolal, 1e-15);
        Assert.Equal(0.024, bath.AlkalinityMolal, 1e-15);
    }

    [Fact]
    public void Impossible_amounts_are_refused_in_a_sentence()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => new BathComposition(-0.01, 0));
        Assert.Contains("sodiumMolal is -0.01 mol/kg; wanted 0 mol/kg or more.", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new BathComposition(0, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => default(BathComposition).Add(AlkaliProduct.SodaAsh, 10, -40, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => default(BathComposition).Add(AlkaliProduct.SodaAsh, -10, 40, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => default(BathComposition).Add(AlkaliProduct.SodaAsh, 10, 40, -1));
    }
}
