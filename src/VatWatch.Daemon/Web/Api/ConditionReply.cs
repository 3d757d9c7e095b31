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
internal sealed record ConditionReply(
    string Vat, DateTimeOffset Time, string State, IReadOnlyList<string> Reasons,
    double? TemperatureC, double? TemperatureRateKPerHour, double? Ph, double? OrpMillivolts, double? OrpRateMillivoltsPerHour,
    ForecastReply? TimeToBand, ForecastReply? TimeToLimit)
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
        ForecastReply.Of(condition.TimeToLimit));
}
