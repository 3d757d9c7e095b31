namespace VatWatch.Measurements;

/// <summary>A liquor or a room that warms or cools faster than it can: in doubt until the next reading confirms it. Not thread safe.</summary>
/// <remarks>
/// 9 kW in 20 L of water give 6.5 K/min and a dye house's heater in its vat under 1 K/min, so 5 K/min is a bad contact or a probe taken out. A step
/// of 1 K is allowed at any rate, or a coarse probe that is read each second would always be too fast. Engineering choice, no source.
/// </remarks>
internal sealed class RateCheck
{
    private const double KelvinPerMinute = 5;
    private const double AlwaysKelvin = 1;

    private readonly UnconfirmedStep _step = new();

    /// <summary>The doubt about this temperature, as a clause; null when there is none.</summary>
    public string? Doubt(TimeSpan at, double temperatureC) =>
        _step.Doubts(at, temperatureC, time => Math.Max(AlwaysKelvin, KelvinPerMinute * time.TotalMinutes))
            ? $"moved from {_step.Before:0.0} to {temperatureC:0.0} °C, faster than {KelvinPerMinute} K/min; waits for the next reading"
            : null;
}
