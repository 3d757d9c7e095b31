namespace VatWatch.Conditions.Heating;

/// <summary>
/// What has been learned of a vat's heat, in a form that can be kept and taken up again the next night. All of it rests on the heat
/// capacity of the configured volume.
/// </summary>
/// <param name="PowerW">Power of the heater that ends up in the liquor, W.</param>
/// <param name="PowerSigmaW">Its standard deviation, W.</param>
/// <param name="LossWPerK">Loss coefficient as the vat usually stands (covered where it has a lid), evaporation counted, W/K.</param>
/// <param name="LossSigmaWPerK">Its standard deviation, W/K.</param>
/// <param name="Correlation">Correlation of the two, -1 to 1.</param>
/// <param name="OpenLossWPerK">Loss coefficient with the lid off, W/K; null when never seen.</param>
/// <param name="OpenLossSigmaWPerK">Its standard deviation, W/K.</param>
/// <param name="ThermostatC">Where a thermostat was seen to switch off, °C; null when it was not.</param>
/// <param name="Windows">Windows of 5 min learned from in all.</param>
/// <param name="Nights">Runs in which at least an hour was learned.</param>
public sealed record LearnedHeat(
    double PowerW,
    double PowerSigmaW,
    double LossWPerK,
    double LossSigmaWPerK,
    double Correlation,
    double? OpenLossWPerK,
    double? OpenLossSigmaWPerK,
    double? ThermostatC,
    int Windows,
    int Nights)
{
    /// <summary>What its nights were like; null in what older versions kept.</summary>
    public KeptNights? Usual { get; init; }

    /// <summary>Whether every figure is one that a vat can have; a record that was damaged on disk is not to be taken up.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public bool IsPlausible =>
        PowerW is >= 0 and <= 100_000 && PowerSigmaW is > 0 and <= 100_000
        && LossWPerK is >= 0 and <= 1_000 && LossSigmaWPerK is > 0 and <= 1_000
        && Math.Abs(Correlation) <= 1
        && OpenLossWPerK is null or (>= 0 and <= 1_000) && OpenLossSigmaWPerK is null or (> 0 and <= 1_000)
        && ThermostatC is null or (> 0 and < 100)
        && Windows >= 0 && Nights >= 0;
}
