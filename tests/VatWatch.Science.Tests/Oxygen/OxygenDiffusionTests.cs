using VatWatch.Science.Oxygen;

namespace VatWatch.Science.Tests.Oxygen;

public sealed class OxygenDiffusionTests
{
    // Source: J. Phys. Chem. 100 (1996) 5597, its equation evaluated by hand.
    [Theory]
    [InlineData(25, 1.998e-5)]
    [InlineData(45, 3.081e-5)]
    public void The_coefficient_agrees(double temperatureC, double expected)
        => Assert.Equal(expected, OxygenDiffusion.SquareCentimetresPerSecond(temperatureC).Value, 0.0006e-5);

    [Theory]
    [InlineData(-1, true)]
    [InlineData(45, false)]
    [InlineData(96, true)]
    public void Outside_the_measured_temperatures_it_is_flagged(double temperatureC, bool extrapolated)
        => Assert.Equal(extrapolated, OxygenDiffusion.SquareCentimetresPerSecond(temperatureC).Extrapolated);
}
