namespace VatWatch.Alarms;

/// <summary>What every rule of one vat is made from.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Settings">Settings of its alarms.</param>
/// <param name="Units">Units of the dyer.</param>
internal sealed record RuleContext(VatDefinition Vat, AlarmSettings Settings, DisplayUnits Units)
{
    /// <summary>A temperature as a number in the dyer's unit, to a tenth.</summary>
    public double? ShownTemperature(double? temperatureC) =>
        temperatureC is { } value ? Math.Round(Units.FromCelsius(value), 1, MidpointRounding.AwayFromZero) : null;
}
