using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// Expected figures: r/(1 + r), r = 10^(-2 dE/S), S = 59.159 mV at 25 °C and 63.128 mV at 45 °C.
public sealed class LeucoShareTests
{
    [Theory]
    [InlineData(-59.9, 25, 0.9906)]
    [InlineData(-20, 25, 0.826)]
    [InlineData(-20, 45, 0.811)]
    [InlineData(0, 45, 0.5)]
    [InlineData(20, 25, 0.174)]
    public void The_share_follows_the_margin(double marginMillivolts, double temperatureC, double share)
        => Assert.Equal(share, LeucoShare.FromMargin(marginMillivolts, temperatureC), 0.0005);

    [Theory]
    [InlineData(-1e6, 1)]
    [InlineData(1e6, 0)]
    public void Far_from_the_midpoint_the_share_is_all_or_nothing(double marginMillivolts, double share)
        => Assert.Equal(share, LeucoShare.FromMargin(marginMillivolts, 25));

    [Fact]
    public void What_is_not_a_number_is_refused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => LeucoShare.FromMargin(double.NaN, 25));
}
