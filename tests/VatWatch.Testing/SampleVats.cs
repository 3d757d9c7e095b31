using VatWatch.Vats.Configuration;

namespace VatWatch.Testing;

/// <summary>Vats of the project's own scenario.</summary>
public static class SampleVats
{
    /// <summary>40 gal for wool: 100 to 118 °F, limit 120 °F, pH 9.5 to 10.5, ORP weak -660 mV, oxidised -580 mV; probes every 5 s.</summary>
    public static VatDefinition MadderLane(string id = "madder-lane") => new()
    {
        Id = new VatId(id),
        Name = "Madder Lane vat",
        VolumeLitres = 151.4,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new TemperatureBand(Celsius(100), Celsius(118), Celsius(120)),
        Ph = new PhBand(9.5, 10.5),
        Orp = new OrpLimits(-660, -580, "Ag/AgCl 3 M KCl", 20),
        HeaterWatts = 1500,
        Probes =
        [
            Probe(id, "liquor", Quantity.Temperature),
            Probe(id, "liquor-ph", Quantity.Ph),
            Probe(id, "liquor-orp", Quantity.Orp),
        ],
    };

    /// <summary>A probe every 5 s that delivers in the canonical unit.</summary>
    public static ProbeDefinition Probe(string vat, string id, Quantity measures, double everySeconds = 5) => new(
        new ProbeId(id), new VatId(vat), measures, new BusId("bench"), "text-line", TimeSpan.FromSeconds(everySeconds), SampleUnit.Canonical(measures));

    private static double Celsius(double fahrenheit) => (fahrenheit - 32) / 1.8;
}
