using VatWatch.Measurements;

namespace VatWatch.Daemon.Web.Api;

/// <summary>One measurement as programs get it.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Probe">The probe.</param>
/// <param name="Measures">temperature, ambient, ph, orp, heater or level.</param>
/// <param name="Time">When, UTC.</param>
/// <param name="TimeTrusted">Whether the clock was known to be right.</param>
/// <param name="AgeSeconds">Age on answering, by the clock that never steps.</param>
/// <param name="Raw">As the probe delivered it.</param>
/// <param name="Value">Calibrated, in <paramref name="Unit"/>; null when there is none.</param>
/// <param name="Unit">°C, pH, mV, on/off (1 or 0) or %.</param>
/// <param name="Quality">good, suspect, missing or fault.</param>
/// <param name="Reason">Why it is not good.</param>
internal sealed record MeasurementReply(
    string Vat, string Probe, Quantity Measures, DateTimeOffset Time, bool TimeTrusted, double AgeSeconds,
    double? Raw, double? Value, string Unit, Quality Quality, string? Reason)
{
    internal static MeasurementReply Of(Measurement measurement, Time.Stamp now) => new(
        measurement.Vat.Value,
        measurement.Probe.Value,
        measurement.Quantity,
        measurement.Stamp.Utc,
        measurement.Stamp.UtcTrusted,
        Math.Round(Math.Max(0, now.Since(measurement.Stamp).TotalSeconds), 1),
        measurement.Raw.Finite(),
        measurement.Value.Finite(),
        measurement.Quantity.Unit(),
        measurement.Quality,
        measurement.Reason);
}
