namespace VatWatch.Science.Tests;

public sealed class EstimateTests
{
    [Theory]
    [InlineData(-0.1, true)]
    [InlineData(0, false)]
    [InlineData(40, false)]
    [InlineData(40.1, true)]
    public void An_input_outside_the_range_flags_the_value(double input, bool extrapolated)
        => Assert.Equal(new Estimate(7, extrapolated), Estimate.InRange(7, input, 0, 40));

    [Fact]
    public void A_flag_once_set_stays_set()
    {
        Assert.True(Estimate.WithinRange(1).OrExtrapolated(true).OrExtrapolated(false).Extrapolated);
        Assert.False(Estimate.WithinRange(1).OrExtrapolated(false).Extrapolated);
    }

    [Fact]
    public void Mass_ranges_add_bound_by_bound_and_keep_the_flag()
        => Assert.Equal(new MassRange(4, 6, true), new MassRange(1, 2) + new MassRange(3, 4, true));
}
