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
/// <param name="Figures">Heat learned, margin of reduction, distance from good days, recoveries, diagnoses.</param>
public sealed record ConditionDocument(
    string Vat, DateTimeOffset Time, bool ClockTrusted, VatState State, IReadOnlyList<string> Reasons,
    double? TemperatureC, double? TemperatureRateKPerHour, double? Ph, double? OrpMillivolts, double? OrpRateMillivoltsPerHour,
    ForecastDocument? TimeToBand, ForecastDocument? TimeToLimit, string? NoTimeToBand, string? NoTimeToLimit, ConditionFigures Figures)
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
