using VatWatch.Science.Electrodes;
using VatWatch.Science.Indigo;

namespace VatWatch.Science.Oxygen;

/// <summary>
/// The oxygen that reaches a vat, g. What reducing agent it burns is told by <see cref="ReducerNeed.ForOxygen(ReducingAgent, MassRange, double)"/>.
/// </summary>
public static class OxygenLoad
{
    /// <summary>
    /// How much faster the surface takes oxygen because the liquor eats it at once: between 1 and 4 by film theory; the default is a
    /// proposal.
    /// </summary>
    public const double DefaultEnhancement = 1.5;

    // 20.95 % oxygen in dry air, standard atmosphere in Pa.
    private const double OxygenShareOfAir = 0.2095;
    private const double PascalsPerAtmosphere = 101325;

    /// <summary>Oxygen taken through the surface in one day: enhancement · kL · C_sat · A · time, added up over the hours.</summary>
    /// <param name="surface">What the surface does; hours not named count as no uptake.</param>
    /// <param name="areaSquareMetres">Free surface, m², above 0.</param>
    /// <param name="temperatureC">Temperature of the liquor, °C; the result is flagged above 40 °C.</param>
    /// <param name="enhancement">Factor of chemical enhancement, 1 or more.</param>
    /// <param name="pressureAtm">Air pressure, atm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside the range named for it, or the hours add up to more than 24.</exception>
    public static MassRange ThroughSurfacePerDay(
        IReadOnlyCollection<SurfaceHours> surface,
        double areaSquareMetres,
        double temperatureC,
        double enhancement = DefaultEnhancement,
        double pressureAtm = 1)
    {
        foreach (var part in surface)
            Wanted.NotNegative(part.Hours, "h", "time in one state");

        // A thousandth of an hour of slack for sums of decimal fractions.
        Wanted.Within(surface.Sum(part => part.Hours), 0, 24.001, "h", "time in all states of one day");
        var saturation = OxygenSaturation.MilligramsPerLitre(temperatureC, pressureAtm);

        // 1 mg/L = 1 g/m³; 1 cm = 0.01 m.
        var gramsPerCentimetre =
            0.01 * saturation.Value * Wanted.Positive(areaSquareMetres, "m²") * Wanted.AtLeast(enhancement, 1, "");
        return new MassRange(
            gramsPerCentimetre * surface.Sum(part => part.Velocity.LowCentimetresPerHour * part.Hours),
            gramsPerCentimetre * surface.Sum(part => part.Velocity.HighCentimetresPerHour * part.Hours),
            saturation.Extrapolated);
    }

    /// <summary>Oxygen that air-saturated water brings in when a vat is filled, g; flagged above 40 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The volume is below 0, or as for <see cref="OxygenSaturation.MilligramsPerLitre"/>.</exception>
    public static Estimate InFillWaterGrams(double volumeLitres, double temperatureC, double pressureAtm = 1)
    {
        var saturation = OxygenSaturation.MilligramsPerLitre(temperatureC, pressureAtm);
        return saturation with { Value = saturation.Value * Wanted.NotNegative(volumeLitres, "L") / 1000 };
    }

    /// <summary>Oxygen in air that dry or fluffed cloth carries under, g: the ideal gas law on dry air, 0.279 g/L at 20 °C, 1 atm.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The volume is below 0, the pressure is not above 0, or the temperature does not exist.</exception>
    public static double InCarriedAirGrams(double airLitres, double airTemperatureC, double pressureAtm = 1)
    {
        var molesPerCubicMetre = OxygenShareOfAir * Wanted.Positive(pressureAtm, "atm") * PascalsPerAtmosphere
            / (Nernst.GasConstantJoulesPerMoleKelvin * Wanted.Kelvin(airTemperatureC));
        return Wanted.NotNegative(airLitres, "L") / 1000 * molesPerCubicMetre * Substances.Oxygen.MolarMassGramsPerMole;
    }
}

/// <summary>Hours of a day that a vat's surface spends in one way. Immutable; safe on any thread.</summary>
/// <param name="Velocity">How fast oxygen passes the surface meanwhile.</param>
/// <param name="Hours">How long, h, 0 to 24.</param>
public readonly record struct SurfaceHours(TransferVelocity Velocity, double Hours)
{
    public static SurfaceHours In(SurfaceState state, double hours) => new(TransferVelocity.Of(state), hours);
}
