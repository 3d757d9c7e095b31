namespace VatWatch.Science.Indigo;

/// <summary>
/// The two acid steps of leuco-indigo. The default constants, 7.97 and 12.68, are widely quoted after Etters and Hou (Text. Res. J.,
/// 1991; from memory, the original was not seen) for an unstated temperature, taken as 25 °C. No dependence on temperature was
/// found, so the default slope is 0. Immutable; safe on any thread.
/// </summary>
/// <param name="PKa1">First step, un-ionised to mono-ion, at 25 °C.</param>
/// <param name="PKa2">Second step, mono-ion to di-ion, at 25 °C; not below <paramref name="PKa1"/>.</param>
/// <param name="PKaPerKelvin">Change of both with temperature, 1/K.</param>
/// <exception cref="ArgumentOutOfRangeException">A constant is not a number, or the second lies below the first.</exception>
public sealed record LeucoIndigoAcidity(double PKa1 = 7.97, double PKa2 = 12.68, double PKaPerKelvin = 0)
{
    /// <summary>The constants as published.</summary>
    public static LeucoIndigoAcidity Published { get; } = new();

    /// <summary>First step at 25 °C.</summary>
    public double PKa1 { get; } = Wanted.Finite(PKa1, "");

    /// <summary>Second step at 25 °C.</summary>
    public double PKa2 { get; } = Wanted.AtLeast(PKa2, PKa1, "");

    /// <summary>Change of both constants with temperature, 1/K.</summary>
    public double PKaPerKelvin { get; } = Wanted.Finite(PKaPerKelvin, "1/K");

    /// <summary>The pH at which the mono-ion, the form that dyes, has its largest share.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public double PeakPhAt(double temperatureC = 25) => (PKa1 + PKa2) / 2 + Shift(temperatureC);

    /// <summary>The shares of the three forms at a pH.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pH is not within −2 to 16, or the temperature does not exist.</exception>
    public LeucoFractions FractionsAt(double ph, double temperatureC = 25)
    {
        var (unionised, diIon) = RelativeToMonoIon(ph, temperatureC);
        var sum = unionised + 1 + diIon;
        return new LeucoFractions(unionised / sum, 1 / sum, diIon / sum);
    }

    /// <summary>
    /// log₁₀ of what the ions add to the solubility of leuco-indigo's reduction: 10^(−2pH) + 10^(−pKa1−pH) + 10^(−pKa1−pKa2).
    /// </summary>
    internal double LogBindingPolynomial(double ph, double temperatureC)
    {
        // The mono-ion's term is taken out of the sum, so that no power of ten can underflow.
        var (unionised, diIon) = RelativeToMonoIon(ph, temperatureC);
        return -(PKa1 + Shift(temperatureC)) - ph + Math.Log10(unionised + 1 + diIon);
    }

    private (double Unionised, double DiIon) RelativeToMonoIon(double ph, double temperatureC)
    {
        // Beyond these no aqueous bath exists; a larger number would be a fault upstream.
        Wanted.Within(ph, -2, 16, "");
        var shift = Shift(temperatureC);
        return (Math.Pow(10, PKa1 + shift - ph), Math.Pow(10, ph - PKa2 - shift));
    }

    private double Shift(double temperatureC) => PKaPerKelvin * (Wanted.TemperatureC(temperatureC) - 25);
}

/// <summary>Shares of the three forms of dissolved leuco-indigo; together 1. Immutable; safe on any thread.</summary>
/// <param name="Unionised">Un-ionised, poorly soluble: whitish turbid liquor when it is large.</param>
/// <param name="MonoIon">Mono-ion, the form with the best colour yield on cotton.</param>
/// <param name="DiIon">Di-ion: more soluble, redder and lighter shades.</param>
public readonly record struct LeucoFractions(double Unionised, double MonoIon, double DiIon);
