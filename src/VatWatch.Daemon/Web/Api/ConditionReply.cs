using VatWatch.Conditions;

namespace VatWatch.Daemon.Web.Api;

/// <summary>A vat's condition as programs get it; quantities are SI, the unit is in the name.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Time">When it was worked out, UTC.</param>
/// <param name="State">warming, ready, resting, too cold, too hot, weak, oxidised, alkali low, alkali high or unknown.</param>
/// <param name="Reasons">Why, in the dyer's units, weightiest first.</param>
/// <param name="TemperatureC">Liquor temperature; null when none is good.</param>
/// <param name="TemperatureRateKPerHour">Its rate of change.</param>
/// <param name="Ph">pH at that temperature.</param>
/// <param name="OrpMillivolts">Against the vat's reference electrode.</param>
/// <param name="OrpRateMillivoltsPerHour">Its rate of change.</param>
/// <param name="TimeToBand">Until the liquor enters the working band.</param>
/// <param name="TimeToLimit">Until the liquor reaches the limit.</param>
/// <param name="NoTimeToBand">Why there is no time to the band, as a clause.</param>
/// <param name="NoTimeToLimit">Why there is no time to the limit, as a clause.</param>
/// <param name="Figures">Heat learned, margin of reduction, distance from good days, recoveries, diagnoses.</param>
internal sealed record ConditionReply(
    string Vat, DateTimeOffset Time, string State, IReadOnlyList<string> Reasons,
    double? TemperatureC, double? TemperatureRateKPerHour, double? Ph, double? OrpMillivolts, double? OrpRateMillivoltsPerHour,
    ForecastReply? TimeToBand, ForecastReply? TimeToLimit, string? NoTimeToBand, string? NoTimeToLimit, ConditionFigures Figures)
{
    internal static ConditionReply Of(VatCondition condition) => new(
        condition.Vat.Value,
        condition.Stamp.Utc,
        condition.State.Word(),
        condition.Reasons,
        MeasurementReply.Finite(condition.TemperatureC),
        MeasurementReply.Finite(condition.TemperatureRateKPerHour),
        MeasurementReply.Finite(condition.Ph),
        MeasurementReply.Finite(condition.OrpMillivolts),
        MeasurementReply.Finite(condition.OrpRateMillivoltsPerHour),
        ForecastReply.Of(condition.TimeToBand),
        ForecastReply.Of(condition.TimeToLimit),
        condition.NoTimeToBand,
        condition.NoTimeToLimit,
        ConditionFigures.Of(condition));
}
