using VatWatch.Science.Indigo;
using static VatWatch.Science.Indigo.ReductionState;

namespace VatWatch.Science.Tests.Indigo;

// Sources as in ReductionThresholdsTests and MidpointModelTests; readings in mV against silver chloride in 3 mol/L KCl.
public sealed class ReductionJudgeTests
{
    private static readonly ReductionJudge Chemical = ReductionJudge.For(VatChemistry.Chemical);
    private static readonly ReductionJudge Fermentation = ReductionJudge.For(VatChemistry.Fermentation);

    [Fact]
    public void With_pH_a_chemical_vat_is_judged_by_its_margin()
    {
        // The midpoint at pH 11 is -605.1: -665.0 lacks 0.1 mV of the working state, -665.2 has it.
        Assert.Equal(Weak, Chemical.StateOf(-665.0, 11, 25));
        Assert.Equal(Working, Chemical.StateOf(-665.2, 11, 25));
    }

    [Fact]
    public void Without_pH_the_fixed_thresholds_rule()
        => Assert.Equal(Working, Chemical.StateOf(-665.0, null, 25));

    [Fact]
    public void At_low_pH_the_same_reading_is_a_stronger_vat()
    {
        Assert.Equal(Weak, Chemical.StateOf(-630, null, 40));
        Assert.Equal(Working, Chemical.StateOf(-630, 9.5, 40));
    }

    [Theory]
    [InlineData(-523)]
    [InlineData(-558)]
    public void A_working_woad_vat_is_not_called_turning_because_pH_is_known(double orpMillivolts)
        => Assert.Equal(Working, Fermentation.StateOf(orpMillivolts, 9.0, 45));

    [Theory]
    [InlineData(401, null)]
    [InlineData(401, 10.5)]
    [InlineData(-1010, 11.0)]
    public void A_reading_no_vat_can_have_means_no_contact(double orpMillivolts, double? ph)
    {
        Assert.Equal(NoContact, Chemical.StateOf(orpMillivolts, ph, 25));
        Assert.Equal(NoContact, Fermentation.StateOf(orpMillivolts, ph, 25));
    }

    // The hydrogen line at pH 11, 25 °C is -858 mV on this scale; 150 mV below it is -1008.
    [Fact]
    public void Just_above_that_the_reading_still_counts()
        => Assert.Equal(OverStrong, Chemical.StateOf(-1007, 11, 25));

    [Fact]
    public void What_is_not_a_number_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Chemical.StateOf(double.NaN, 11, 25));
        Assert.Throws<ArgumentOutOfRangeException>(() => Chemical.StateOf(-700, double.NaN, 25));
        Assert.Throws<ArgumentOutOfRangeException>(() => Chemical.StateOf(-700, null, double.NaN));
    }
}
