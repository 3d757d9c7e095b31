using System.Text.Json.Serialization;

namespace VatWatch.Sessions;

/// <summary>What the dyer means to do in a session: nothing is held to it, it only tells when it is time. Immutable.</summary>
/// <param name="DipMinutes">Time in the liquor, min; null: no wish.</param>
/// <param name="AiringMinutes">Time out of it between two dips, min; null: no wish.</param>
/// <param name="Dips">How many dips; null: no wish.</param>
public sealed record DipWish(double? DipMinutes, double? AiringMinutes, int? Dips)
{
    /// <summary>Longest time of a dip or an airing, min.</summary>
    public const double MostMinutes = 24 * 60;

    public const int MostDips = 100;

    /// <summary>Whether it says anything.</summary>
    [JsonIgnore]
    public bool IsEmpty => this is { DipMinutes: null, AiringMinutes: null, Dips: null };
}
