using VatWatch.Alarms;
using VatWatch.Conditions;
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
