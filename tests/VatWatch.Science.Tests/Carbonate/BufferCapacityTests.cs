using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate;

public class BufferCapacityTests
{
    // meq/kg per pH at 45 °C and pH 9, 9.5, 10, 10.5, 11; finite differences of a separate program (Python), to two digits.
    [Theory]
    [InlineData(1, 1.8, 4.3, 6.8, 7.6, 12.8)]
    [InlineData(2, 3.8, 8.9, 12.6, 11.3, 14.8)]
    [InlineData(5, 11.0, 24.0, 30.0, 21.0, 19.0)]
    [InlineData(10, 25.0, 52.0, 56.0, 34.0, 25.0)]
    public void The_table_of_an_independent_program_is_met(double gramsPerLitre, params double[] expected)
    {
        var carbonate = AlkaliProduct.SodaAsh.Molality(gramsPerLitre, 1, 45);
        for (var i = 0; i < expected.Length; i++)
        {
            var capacity = 1000 * BufferCapacity.EquivalentsPerKgPerPh(carbonate, 9 + 0.5 * i, 45).Value;
            Assert.Equal(expected[i], capacity, gramsPerLitre < 5 ? 0.061 : 0.51);
        }
    }

    // Textbook formula of a two-step acid (concentration constants at the bath's ionic strength), which leaves out the drift of the activity coefficients.
    [Fact]
    public void The_closed_formula_gives_nearly_the_same()
    {
        const double ph = 10;
        var carbonate = AlkaliProduct.SodaAsh.Molality(2, 1, 45);
        var law = DebyeHuckel.At(45);
        const double ionicStrength = 0.045;
        var bicarbonate = law.ActivityCoefficient(Ion.Bicarbonate, ionicStrength);
        var a = Math.Pow(10, -ph);
        var k1 = Math.Pow(10, CarbonateConstants.Log10K1(45)) / bicarbonate;
        var k2 = Math.Pow(10, CarbonateConstants.Log10K2(45)) * bicarbonate / law.ActivityCoefficient(Ion.Carbonate, ionicStrength);
        var hydroxide = Math.Pow(10, CarbonateConstants.Log10KWater(45)) / a / law.ActivityCoefficient(Ion.Hydroxide, ionicStrength);
        var formula = Math.Log(10) * (a + hydroxide + carbonate * k1 * a * (a * a + 4 * k2 * a + k1 * k2) / Math.Pow(a * a + k1 * a + k1 * k2, 2));
        Assert.Equal(12.1, 1000 * formula, 0.15);
        Assert.Equal(formula, BufferCapacity.EquivalentsPerKgPerPh(carbonate, ph, 45).Value, 0.05 * formula);
    }

    [Fact]
    public void A_negative_carbonate_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BufferCapacity.EquivalentsPerKgPerPh(-0.01, 10, 45));
}
