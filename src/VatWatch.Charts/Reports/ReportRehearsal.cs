using VatWatch.Charts.Traces;
using VatWatch.Measurements;
using VatWatch.Vats.Configuration;

namespace VatWatch.Charts.Reports;

/// <summary>A made-up hour of a vat, whose report loads everything that a report needs.</summary>
internal static class ReportRehearsal
{
    private const int Readings = 60;
    private static readonly DateTimeOffset Start = DateTimeOffset.UnixEpoch;
    private static readonly VatId Vat = new("rehearsal");

    /// <summary>The hour.</summary>
    public static VatRecord Record()
    {
        ProbeDefinition Probe(Quantity measures) =>
            new(new ProbeId($"{measures}"), Vat, measures, new BusId("none"), "none", TimeSpan.FromMinutes(1), new SampleUnit("", 1, 0, IsElectrode: false));

        var vat = new VatDefinition
        {
            Id = Vat,
            Name = "Rehearsal",
            VolumeLitres = 100,
            Fibre = Fibre.Protein,
            Reducer = ReducingAgent.ThioureaDioxide,
            Temperature = new TemperatureBand(38, 48, 49),
            Ph = new PhBand(9.5, 10.5),
            Orp = new OrpLimits(-660, -580, "Ag/AgCl 3 M KCl", 20),
            Probes = [Probe(Quantity.Temperature), Probe(Quantity.Ph), Probe(Quantity.Orp)],
        };
        Measurement[] measurements =
        [
            .. Enumerable.Range(0, Readings).SelectMany(minute => new[]
            {
                Reading(Quantity.Temperature, minute, 20 + minute * 0.1), Reading(Quantity.Ph, minute, 10), Reading(Quantity.Orp, minute, -700 + minute),
            }),
        ];
        return new VatRecord(vat, DisplayUnits.Us, Start, measurements[^1].Stamp.Utc, measurements, [])
        {
            Conditions = ConditionTrace.Of(vat, DisplayUnits.Us, measurements, []),
        };
    }

    private static Measurement Reading(Quantity measures, int minute, double value)
    {
        var at = TimeSpan.FromMinutes(minute);
        return new Measurement(Vat, new ProbeId($"{measures}"), measures, new Stamp(Start + at, at, true), null, value, Quality.Good, null, null);
    }
}
