using VatWatch.Science.Indigo;
using static VatWatch.Science.Indigo.ReductionState;

namespace VatWatch.Science.Tests.Indigo;

// The limits are this program's proposals, built on rope dyers' -730 to -860 mV with dithionite, full reduction from -665 mV at
// pH 11 by the midpoint model, and woad vats at -523 to -558 mV (Padden et al. 1998).
public sealed class ReductionThresholdsTests
{
    [Theory]
    [InlineData(-901, OverStrong)]
    [InlineData(-899, Working)]
    [InlineData(-730, Working)]
    [InlineData(-661, Working)]
    [InlineData(-659, Weak)]
    [InlineData(-621, Weak)]
    [InlineData(-619, Turning)]
    [InlineData(-581, Turning)]
    [InlineData(-579, Oxidised)]
    [InlineData(100, Oxidised)]
    public void A_chemical_vat(double orpMillivolts, ReductionState state)
        => Assert.Equal(state, ReductionThresholds.For(VatChemistry.Chemical).StateAt(orpMillivolts));

    [Theory]
    [InlineData(-950, Working)]
    [InlineData(-558, Working)]
    [InlineData(-523, Working)]
    [InlineData(-514, Weak)]
    [InlineData(-471, Weak)]
    [InlineData(-469, Turning)]
    [InlineData(-431, Turning)]
    [InlineData(-429, Oxidised)]
    public void A_fermentation_vat(double orpMillivolts, ReductionState state)
        => Assert.Equal(state, ReductionThresholds.For(VatChemistry.Fermentation).StateAt(orpMillivolts));

    [Theory]
    [InlineData(-300, OverStrong)]
    [InlineData(-299, Working)]
    [InlineData(-60, Working)]
    [InlineData(-59.9, Weak)]
    [InlineData(-19, Turning)]
    [InlineData(20, Turning)]
    [InlineData(21, Oxidised)]
    public void A_margin_to_the_midpoint(double marginMillivolts, ReductionState state)
        => Assert.Equal(state, ReductionThresholds.ChemicalMargin.StateAt(marginMillivolts));

    [Fact]
    public void Limits_that_do_not_rise_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReductionThresholds(-900, -660, -670, -580));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReductionThresholds(-600, -660, -620, -580));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReductionThresholds(null, double.NaN, -620, -580));
        Assert.Throws<ArgumentOutOfRangeException>(() => ReductionThresholds.Chemical.StateAt(double.NaN));
    }
}
