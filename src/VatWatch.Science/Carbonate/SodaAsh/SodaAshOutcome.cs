namespace VatWatch.Science.Carbonate.SodaAsh;

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
