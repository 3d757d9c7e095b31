using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Stored;

namespace VatWatch.Conditions;

/// <summary>A vat's condition as topics and the HTTP interface write it. Quantities are SI, the unit is in the name; what is not known is null.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Time">When it was worked out, UTC.</param>
/// <param name="ClockTrusted">Whether that time is to be believed.</param>
/// <param name="State">The one word.</param>
/// <param name="Reasons">Why, in the dyer's units, weightiest first.</param>
/// <param name="TemperatureC">Liquor temperature.</param>
/// <param name="TemperatureRateKPerHour">Its rate of change.</param>
/// <param name="Ph">pH at that temperature.</param>
/// <param name="OrpMillivolts">Against the vat's reference electrode.</param>
/// <param name="OrpRateMillivoltsPerHour">Its rate of change.</param>
/// <param name="TimeToBand">Until the liquor enters the working band.</param>
/// <param name="TimeToLimit">Until the liquor reaches the limit.</param>
/// <param name="NoTimeToBand">Why there is no time to the band, as a clause.</param>
/// <param name="NoTimeToLimit">Why there is no time to the limit, as a clause.</param>
/// <param name="WarmUp">The warm-up that was begun and has not reached the band yet.</param>
/// <param name="Figures">Heat learned, margin of reduction, distance from good days, recoveries, diagnoses.</param>
public sealed record ConditionDocument(
    string Vat, DateTimeOffset Time, bool ClockTrusted, VatState State, IReadOnlyList<string> Reasons,
    double? TemperatureC, double? TemperatureRateKPerHour, double? Ph, double? OrpMillivolts, double? OrpRateMillivoltsPerHour,
    ForecastDocument? TimeToBand, ForecastDocument? TimeToLimit, string? NoTimeToBand, string? NoTimeToLimit, WarmUpDocument? WarmUp, ConditionFigures Figures)
{
    /// <summary>The document of a condition.</summary>
    public static ConditionDocument Of(VatCondition condition) => new(
        condition.Vat.Value,
        condition.Stamp.Utc,
        condition.Stamp.UtcTrusted,
        condition.State,
        condition.Reasons,
        condition.TemperatureC.Rounded(),
        condition.TemperatureRateKPerHour.Rounded(),
        condition.Ph.Rounded(),
        condition.OrpMillivolts.Rounded(),
        condition.OrpRateMillivoltsPerHour.Rounded(),
        ForecastDocument.Of(condition.TimeToBand),
        ForecastDocument.Of(condition.TimeToLimit),
        condition.NoTimeToBand,
        condition.NoTimeToLimit,
        WarmUpDocument.Of(condition),
        ConditionFigures.Of(condition));
}

/// <summary>A time ahead with its band of about 90 %, in minutes.</summary>
/// <param name="EarlyMinutes">Early edge.</param>
/// <param name="MiddleMinutes">Best estimate.</param>
/// <param name="LateMinutes">Late edge; null when it may never happen.</param>
public sealed record ForecastDocument(double EarlyMinutes, double MiddleMinutes, double? LateMinutes)
{
    /// <summary>The document of a forecast; null when there is none.</summary>
    public static ForecastDocument? Of(Forecast? forecast) => forecast is null
        ? null
        : new(Minutes(forecast.Early), Minutes(forecast.Middle), forecast.Late is { } late ? Minutes(late) : null);

    private static double Minutes(TimeSpan time) => Math.Round(time.TotalMinutes, 1);
}

/// <summary>A warm-up that was begun: what is expected of it, and what is seen. Temperatures in °C and K.</summary>
/// <param name="Since">When it began, UTC.</param>
/// <param name="WasEntered">Whether a person entered it; otherwise a heater probe shows the power.</param>
/// <param name="ReadyBy">When the vat should be warm, UTC; null without such a wish.</param>
/// <param name="IsLate">Whether even the early edge of the forecast comes after that.</param>
/// <param name="StartC">The liquor when it began.</param>
/// <param name="LeastRiseK">Least rise since then that was to be expected by now.</param>
/// <param name="MostRiseK">The greatest.</param>
/// <param name="RiseK">The rise that is seen.</param>
/// <param name="SlowSince">Since when the liquor has risen by less than half of the least that is plausible, UTC; null while it rises well.</param>
/// <param name="Causes">What fits that, likeliest first; empty without it.</param>
public sealed record WarmUpDocument(
    DateTimeOffset Since, bool WasEntered, DateTimeOffset? ReadyBy, bool IsLate, double? StartC, double? LeastRiseK, double? MostRiseK, double? RiseK,
    DateTimeOffset? SlowSince, IReadOnlyList<WarmUpCause> Causes)
{
    /// <summary>The document of a condition's warm-up; null when none was begun.</summary>
    public static WarmUpDocument? Of(VatCondition condition) => condition.WarmUp is not { } warmUp ? null : new(
        warmUp.Since.Utc,
        warmUp.WasEntered,
        warmUp.ReadyBy,
        warmUp.IsLate(condition.Stamp.Utc),
        warmUp.StartC.Rounded(2),
        warmUp.ExpectedRiseK.Low.Rounded(2),
        warmUp.ExpectedRiseK.High.Rounded(2),
        warmUp.RiseK.Rounded(2),
        warmUp.SlowSince?.Utc,
        warmUp.Causes);
}
