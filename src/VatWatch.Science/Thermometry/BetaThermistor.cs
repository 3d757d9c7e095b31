namespace VatWatch.Science.Thermometry;

/// <summary>
/// A thermistor described by its resistance at 25 °C and one constant: 1/T = 1/T₂₅ + ln(R/R₂₅)/B. The simple form costs up to 0.8 K
/// at the ends of 0 to 100 °C, and is flagged outside them. Immutable; safe on any thread.
/// </summary>
/// <param name="ResistanceAt25COhm">R₂₅, Ω, above 0.</param>
/// <param name="BetaKelvin">B, K, above 0; best the one the maker states for 25 and 85 °C.</param>
/// <exception cref="ArgumentOutOfRangeException">A constant is not above 0.</exception>
public sealed record BetaThermistor(double ResistanceAt25COhm, double BetaKelvin)
{
    private const double At25Kelvin = 298.15;

    /// <summary>R₂₅, Ω.</summary>
    public double ResistanceAt25COhm { get; } = Wanted.Positive(ResistanceAt25COhm, "Ω");

    /// <summary>B, K.</summary>
    public double BetaKelvin { get; } = Wanted.Positive(BetaKelvin, "K");

    /// <summary>Temperature at a resistance, °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is not above 0, or no temperature gives it.</exception>
    public Estimate TemperatureC(double resistanceOhm)
        => ThermistorCurve.FromReciprocalKelvin(
            1 / At25Kelvin + Math.Log(Wanted.Positive(resistanceOhm, "Ω") / ResistanceAt25COhm) / BetaKelvin, resistanceOhm, 0, 100);

    /// <summary>Resistance at a temperature, Ω.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist, or is so low that the resistance is beyond all numbers.</exception>
    public Estimate ResistanceOhm(double temperatureC)
    {
        var ohm = ResistanceAt25COhm * Math.Exp(BetaKelvin * (1 / Wanted.Kelvin(temperatureC) - 1 / At25Kelvin));
        return double.IsFinite(ohm)
            ? Estimate.InRange(ohm, temperatureC, 0, 100)
            : throw Wanted.Refusal(temperatureC, nameof(temperatureC), "a temperature at which a thermistor has a resistance");
    }
}
