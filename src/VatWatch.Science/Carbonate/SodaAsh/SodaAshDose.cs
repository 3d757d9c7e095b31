namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>Anhydrous soda ash to bring a bath to a wanted pH at its own temperature. An estimate: closed bath, no hardness.</summary>
/// <param name="Outcome">Whether to dose at all.</param>
/// <param name="FormalGrams">
/// The solver's answer, shown even where it is refused; null if no amount up to <see cref="SearchGramsPerLitre"/> reaches the wanted pH.
/// </param>
/// <param name="VolumeL">Volume of the bath, L.</param>
/// <param name="GramsPerLitreAfter">Soda ash in the bath after the dose, all its sodium counted as such; null where <paramref name="FormalGrams"/> is.</param>
/// <param name="Extrapolated">True where the chemistry was used outside its checked range.</param>
public readonly record struct SodaAshDose(
    SodaAshOutcome Outcome, double? FormalGrams, double VolumeL, double? GramsPerLitreAfter, bool Extrapolated)
{
    /// <summary>Above this total soda ash is no longer an answer: pH 11 at 45 °C takes 12 g/L even in pure water.</summary>
    public const double MostGramsPerLitre = 10;

    /// <summary>How far the solver looks, g/L; beyond it the activity model is out of its range.</summary>
    public const double SearchGramsPerLitre = 200;

    /// <summary>Largest step at once, g/L. Common practice, no source.</summary>
    public const double MostStepGramsPerLitre = 0.8;

    /// <summary>Grams to add: 0 if already there, null if not reachable.</summary>
    public double? Grams => Outcome switch
    {
        SodaAshOutcome.AlreadyThere => 0,
        SodaAshOutcome.Reachable => FormalGrams,
        _ => null,
    };

    /// <summary>First portion: a third of the dose, and not more than <see cref="MostStepGramsPerLitre"/>; null if not reachable.</summary>
    public double? FirstPortionGrams => Grams is { } grams ? Math.Min(grams / 3, MostStepGramsPerLitre * VolumeL) : null;
}

/// <summary>What a computed dose of soda ash comes to.</summary>
public enum SodaAshOutcome
{
    /// <summary>The bath is at or above the wanted pH: add nothing.</summary>
    AlreadyThere,

    /// <summary>The dose reaches the wanted pH.</summary>
    Reachable,

    /// <summary>It would leave more than <see cref="SodaAshDose.MostGramsPerLitre"/> in the bath: refresh the bath or accept a lower pH.</summary>
    NotReachable,
}
