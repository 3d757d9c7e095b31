namespace VatWatch.Science.Thermometry;

/// <summary>
/// A thermistor described by four constants of the ratio to its resistance at 25 °C: 1/T = A + B x + C x² + D x³, x = ln(R/R₂₅).
/// Flagged outside −40 to 125 °C, the span such parts are made for (common practice, from memory). Immutable; safe on any thread.
/// </summary>
/// <param name="ResistanceAt25COhm">R₂₅, Ω, above 0.</param>
/// <param name="A">Constant term, 1/K.</param>
/// <param name="B">Term of x, 1/K.</param>
/// <param name="C">Term of x², 1/K.</param>
/// <param name="D">Term of x³, 1/K.</param>
/// <exception cref="ArgumentOutOfRangeException">R₂₅ is not above 0, or a constant is not a number.</exception>
public sealed record RatioThermistor(double ResistanceAt25COhm, double A, double B, double C, double D)
{
    /// <summary>The common 10 kΩ part with B₂₅/₈₅ = 3977 K; constants of its maker's datasheet, seen in transcriptions.</summary>
    public static RatioThermistor TenKilohmB3977 { get; } =
        new(10_000, 3.354016e-3, 2.569850e-4, 2.620131e-6, 6.383091e-8);

    /// <summary>R₂₅, Ω.</summary>
    public double ResistanceAt25COhm { get; } = Wanted.Positive(ResistanceAt25COhm, "Ω");

    /// <summary>Constant term, 1/K.</summary>
    public double A { get; } = Wanted.Finite(A, "");

    /// <summary>Term of x, 1/K.</summary>
    public double B { get; } = Wanted.Finite(B, "");

    /// <summary>Term of x², 1/K.</summary>
    public double C { get; } = Wanted.Finite(C, "");

    /// <summary>Term of x³, 1/K.</summary>
    public double D { get; } = Wanted.Finite(D, "");

    /// <summary>Temperature at a resistance, °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is not above 0, or no temperature gives it.</exception>
    public Estimate TemperatureC(double resistanceOhm)
    {
        var x = Math.Log(Wanted.Positive(resistanceOhm, "Ω") / ResistanceAt25COhm);
        return ThermistorCurve.FromReciprocalKelvin(A + x * (B + x * (C + x * D)), resistanceOhm, -40, 125);
    }
}
