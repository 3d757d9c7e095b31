namespace VatWatch.Science.Thermometry;

/// <summary>
/// A thermistor described by the Steinhart–Hart equation in ohms: 1/T = a + b ln R + c (ln R)³. Flagged outside −40 to 125 °C, the
/// span such parts are made for (common practice, from memory). Immutable; safe on any thread.
/// </summary>
/// <param name="A">Constant term, 1/K.</param>
/// <param name="B">Term of ln R, 1/K.</param>
/// <param name="C">Term of (ln R)³, 1/K.</param>
/// <exception cref="ArgumentOutOfRangeException">A constant is not a number.</exception>
public sealed record SteinhartHartThermistor(double A, double B, double C)
{
    /// <summary>The common 10 kΩ part of resistance curve 3; constants as printed to six digits, the last digit from memory.</summary>
    public static SteinhartHartThermistor TenKilohmCurve3 { get; } = new(1.129241e-3, 2.341077e-4, 8.775468e-8);

    /// <summary>Constant term, 1/K.</summary>
    public double A { get; } = Wanted.Finite(A, "");

    /// <summary>Term of ln R, 1/K.</summary>
    public double B { get; } = Wanted.Finite(B, "");

    /// <summary>Term of (ln R)³, 1/K.</summary>
    public double C { get; } = Wanted.Finite(C, "");

    /// <summary>Temperature at a resistance, °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is not above 0, or no temperature gives it.</exception>
    public Estimate TemperatureC(double resistanceOhm)
    {
        var x = Math.Log(Wanted.Positive(resistanceOhm, "Ω"));
        return ThermistorCurve.FromReciprocalKelvin(A + B * x + C * x * x * x, resistanceOhm, -40, 125);
    }
}
