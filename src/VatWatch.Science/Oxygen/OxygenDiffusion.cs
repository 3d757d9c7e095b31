namespace VatWatch.Science.Oxygen;

/// <summary>How fast dissolved oxygen spreads in still water.</summary>
public static class OxygenDiffusion
{
    /// <summary>
    /// Diffusion coefficient, cm²/s: log₁₀ D = −4.410 + 773.8 / T − (506.4 / T)²; flagged outside −0.5 to 95 °C. Source: J. Phys.
    /// Chem. 100 (1996) 5597.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public static Estimate SquareCentimetresPerSecond(double temperatureC)
    {
        var kelvin = Wanted.Kelvin(temperatureC);
        var value = Math.Pow(10, -4.410 + 773.8 / kelvin - Math.Pow(506.4 / kelvin, 2));
        return Estimate.InRange(value, temperatureC, -0.5, 95);
    }
}
