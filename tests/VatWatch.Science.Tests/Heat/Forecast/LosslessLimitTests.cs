using VatWatch.Science.Heat.Forecast;

namespace VatWatch.Science.Tests.Heat.Forecast;

public class LosslessLimitTests
{
    // Taylor series of the same quotients, summed here to the last digit: 1 + z/2 + z²/3 ..., 1 - y/2 + y²/6 ..., 1/2 + 2z/3 + 3z²/4 ...
    [Theory]
    [InlineData(0)]
    [InlineData(1e-18)]
    [InlineData(3e-16)]
    [InlineData(1e-12)]
    [InlineData(-1e-8)]
    [InlineData(1e-5)]
    [InlineData(-1e-3)]
    [InlineData(0.019)]
    [InlineData(0.021)]
    [InlineData(-0.3)]
    [InlineData(0.5)]
    public void Quotients_follow_their_series_to_the_last_digits(double z)
    {
        double log = 0, decay = 0, sensitivity = 0, power = 1, factorial = 1;
        for (var k = 0; k < 80; k++)
        {
            log += power / (k + 1);
            sensitivity += power * (k + 1.0) / (k + 2);
            decay += (k % 2 == 0 ? 1 : -1) * power / factorial;
            power *= z;
            factorial *= k + 2;
        }

        Assert.Equal(1, LosslessLimit.LogQuotient(z) / log, 1e-14);
        Assert.Equal(1, LosslessLimit.DecayQuotient(z) / decay, 1e-14);
        Assert.Equal(1, LosslessLimit.SensitivityQuotient(z) / sensitivity, 2e-12);
    }

    [Fact]
    public void A_very_long_time_leaves_nothing_of_the_difference() => Assert.Equal(1e-4, LosslessLimit.DecayQuotient(1e4), 1e-18);
}
