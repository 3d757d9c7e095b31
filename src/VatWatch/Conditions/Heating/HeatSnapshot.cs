using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating;

/// <summary>The heat of a vat at one moment, as the state word and the diagnoses need it.</summary>
/// <param name="Estimate">What has been learned.</param>
/// <param name="Line">Slope of the present regime; null early in it.</param>
/// <param name="HeaterOn">Whether the heater heats; null when not known.</param>
/// <param name="RateKPerHour">Best rate with things as they are, K/h; null when nothing can be said.</param>
/// <param name="RateOn">Rate with the heater on, K/h, and its standard deviation.</param>
internal sealed record HeatSnapshot(
    HeatEstimate Estimate, RateLine? Line, bool? HeaterOn, double? RateKPerHour, (double KPerHour, double Sigma) RateOn);
