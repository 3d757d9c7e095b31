using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Api;

/// <summary>The newest of everything about one vat.</summary>
/// <param name="Vat">Name in addresses.</param>
/// <param name="Name">Name for people.</param>
/// <param name="VolumeLitres">Liquor in the full vat.</param>
/// <param name="Simulated">Whether it is a simulation and not a real vat.</param>
/// <param name="Condition">Newest condition.</param>
/// <param name="Measurements">Newest measurement of each probe that has spoken.</param>
/// <param name="Alarms">Every alarm that is not in normal.</param>
internal sealed record VatReply(
    string Vat, string Name, double VolumeLitres, bool Simulated, ConditionDocument Condition,
    IReadOnlyList<MeasurementReply> Measurements, IReadOnlyList<AlarmDocument> Alarms)
{
    internal static VatReply Of(LiveVat live, SiteFacts site, Stamp now) => new(
        live.Definition.Id.Value,
        live.Definition.Name,
        live.Definition.VolumeLitres,
        site.SimulatedVats.Contains(live.Definition.Id),
        ConditionDocument.Of(live.Condition),
        [.. live.Latest.Select(measurement => MeasurementReply.Of(measurement, now))],
        [.. live.Alarms.Select(alarm => AlarmDocument.Of(alarm, site.Units))]);
}

/// <summary>One measurement as programs get it.</summary>
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
