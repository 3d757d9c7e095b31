using VatWatch.Conditions.Heating;

namespace VatWatch.Conditions.Liquor;

/// <summary>What is known of the liquor's warmth at one moment.</summary>
/// <param name="TemperatureC">°C; null when no value can be relied on.</param>
/// <param name="WhyNot">Then why, as a clause.</param>
/// <param name="Trend">Slope of the last minutes; null early on.</param>
/// <param name="Outlook">Forecasts; null without a temperature.</param>
/// <param name="ToBand">Time to the band.</param>
/// <param name="ToLimit">Time to the limit.</param>
/// <param name="Diagnoses">What seems wrong with the heating.</param>
internal sealed record LiquorSnapshot(
    double? TemperatureC,
    string? WhyNot,
    Trend? Trend,
    HeatOutlook? Outlook,
    ForecastAnswer ToBand,
    ForecastAnswer ToLimit,
    List<Diagnosis> Diagnoses)
{
    /// <summary>The warm-up that was begun.</summary>
    public WarmUp? WarmUp { get; init; }
}
