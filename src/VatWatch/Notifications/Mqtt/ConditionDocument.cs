using VatWatch.Conditions;

namespace VatWatch.Notifications.Mqtt;

/// <summary>A vat's condition as its topic shows it. Units are in the names; what is not known is null.</summary>
internal sealed record ConditionDocument(
    string Vat,
    string Time,
    bool ClockTrusted,
    string State,
    IReadOnlyList<string> Reasons,
    double? TemperatureC,
    double? TemperatureRateKPerHour,
    double? Ph,
    double? OrpMillivolts,
    double? OrpRateMillivoltsPerHour,
    ForecastDocument? TimeToBand,
    ForecastDocument? TimeToLimit,
    string? NoTimeToBand,
    string? NoTimeToLimit,
    ConditionFigures Figures)
{
    /// <summary>Turns <paramref name="condition"/> into what is written.</summary>
    public static ConditionDocument Of(VatCondition condition) => new(
        condition.Vat.Value,
        MqttJson.Time(condition.Stamp.Utc),
        condition.Stamp.UtcTrusted,
        condition.State.Word(),
        condition.Reasons,
        Tidy(condition.TemperatureC),
        Tidy(condition.TemperatureRateKPerHour),
        Tidy(condition.Ph),
        Tidy(condition.OrpMillivolts),
        Tidy(condition.OrpRateMillivoltsPerHour),
        ForecastDocument.Of(condition.TimeToBand),
        ForecastDocument.Of(condition.TimeToLimit),
        condition.NoTimeToBand,
        condition.NoTimeToLimit,
        ConditionFigures.Of(condition));

    private static double? Tidy(double? value) => value is { } number && double.IsFinite(number) ? Math.Round(number, 4) : null;
}

/// <summary>A time ahead with its band, minutes; the late edge is null when it may never happen.</summary>
internal sealed record ForecastDocument(double EarlyMinutes, double MiddleMinutes, double? LateMinutes)
{
    /// <summary>Null when there is no forecast.</summary>
    public static ForecastDocument? Of(Forecast? forecast) => forecast is null
        ? null
        : new(Minutes(forecast.Early), Minutes(forecast.Middle), forecast.Late is { } late ? Minutes(late) : null);

    private static double Minutes(TimeSpan time) => Math.Round(time.TotalMinutes, 1);
}
