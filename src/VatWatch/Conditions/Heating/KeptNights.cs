namespace VatWatch.Conditions.Heating;

/// <summary>What a vat's nights were like, in a form that can be kept: what the next night is held against. A figure that no vat can have is left out where it is taken up.</summary>
/// <param name="Warming">How fast the liquor changed with its heater on, at each warmth.</param>
/// <param name="Cooling">The same between two of a thermostat's cuts.</param>
/// <param name="FirstHour">What the heater brought in each part of the first hour.</param>
/// <param name="FirstRiseK">How far it had brought the liquor by each part of the first hour, K; null where that is not known.</param>
/// <param name="DrawnShare">The least power that it drew while it was on, as a share of the rating; null without a probe for it.</param>
public sealed record KeptNights(
    IReadOnlyList<KeptRate> Warming, IReadOnlyList<KeptRate> Cooling, IReadOnlyList<KeptRate> FirstHour, IReadOnlyList<double?> FirstRiseK, double? DrawnShare);

/// <summary>A usual rate.</summary>
/// <param name="Place">Number of the warmth, K above 0 °C, or of the part of the hour.</param>
/// <param name="KPerHour">K/h.</param>
/// <param name="Nights">Nights it was seen in.</param>
public readonly record struct KeptRate(int Place, double KPerHour, int Nights);
