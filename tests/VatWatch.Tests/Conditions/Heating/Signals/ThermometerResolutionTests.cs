using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Signals;

public sealed class ThermometerResolutionTests
{
    [Fact]
    public void A_thermometer_is_as_fine_as_the_smallest_step_and_the_noise_about_the_curve()
    {
        var resolution = new ThermometerResolution();
        var random = new Random(4);
        for (var i = 0; i < 200; i++)
        {
            var liquorC = 30 + 0.1 * i;
            resolution.Add(Math.Round(liquorC * 8) / 8);
            resolution.Add(new LiquorMean(TimeSpan.FromMinutes(i), liquorC + MathNet.Numerics.Distributions.Normal.Sample(random, 0, 0.05), null, 6));
        }

        Assert.Equal(0.125, resolution.StepK, 1e-9);
        Assert.InRange(resolution.NoiseK, 0.035, 0.07);
    }
}
