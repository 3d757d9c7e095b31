using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// The limits are this program's proposals, built on rope dyers' -730 to -860 mV with dithionite, full reduction from -665 mV at
// pH 11 by the midpoint model, and woad vats at -523 to -558 mV (Padden et al. 1998).
public sealed class ReductionThresholdsTests
{
    public static TheoryData<ReductionThresholds> All => [ReductionThresholds.Chemical, ReductionThresholds.Fermentation, ReductionThresholds.ChemicalMargin];

    [Theory]
    [MemberData(nameof(All))]
    public void Each_state_is_less_reduced_than_the_one_before(ReductionThresholds limits)
    {
        Assert.True(limits.WorkingUpToMillivolts < limits.WeakUpToMillivolts);
        Assert.True(limits.WeakUpToMillivolts < limits.TurningUpToMillivolts);
    }

    [Fact]
    public void Vats_that_were_seen_to_work_lie_below_the_working_limit()
    {
        Assert.InRange(-665, double.MinValue, ReductionThresholds.Chemical.WorkingUpToMillivolts);
        Assert.InRange(-523, double.MinValue, ReductionThresholds.Fermentation.WorkingUpToMillivolts);
    }

    [Fact]
    public void The_margin_of_a_working_vat_is_nearly_full_reduction() =>
        Assert.InRange(LeucoShare.FromMargin(ReductionThresholds.ChemicalMargin.WorkingUpToMillivolts, 25), 0.99, 1);
}
