using VatWatch.Conditions.Heating.Learning;

namespace VatWatch.Tests.Conditions.Heating.Learning;

public sealed class ResidualCusumTests
{
    [Fact]
    public void A_lasting_shift_is_found_after_half_an_hour_and_noise_is_not()
    {
        var cusum = new ResidualCusum();
        var random = new Random(2);
        for (var i = 0; i < 500; i++)
        {
            var noise = MathNet.Numerics.Distributions.Normal.Sample(random, 0, 0.7);
            cusum.Add(TimeSpan.FromMinutes(5 * i), TimeSpan.FromMinutes(5 * i + 5), 0.035 * noise, noise);
            Assert.Null(cusum.Found);
        }

        cusum.Clear();
        for (var i = 0; i < 6; i++)
        {
            Assert.Null(cusum.Found);
            cusum.Add(TimeSpan.FromMinutes(5 * i), TimeSpan.FromMinutes(5 * i + 5), -0.09, -2.6);
        }

        // 0.09 K in 5 min is 1.08 K/h: a lid at 46 °C (heat-balance reference, section 10).
        var found = Assert.NotNull(cusum.Found);
        Assert.Equal(-1.08, found.KPerHour, 0.01);
        Assert.Equal(TimeSpan.Zero, found.Since);
    }
}
