namespace VatWatch.Alarms;

/// <summary>How far two probes of one kind in one vat may differ before one of them must be wrong.</summary>
/// <param name="TemperatureK">Liquor temperature; 1 K by default, the mark of a vat that is not mixed.</param>
/// <param name="Ph">pH; 0.3 by default, common practice, no source.</param>
/// <param name="OrpMillivolts">ORP; 30 mV by default, within the 20 to 50 mV that platinum drifts.</param>
public sealed record DisagreementLimits(double TemperatureK = 1, double Ph = 0.3, double OrpMillivolts = 30)
{
    /// <summary>The limit for one kind; null for kinds that are not compared.</summary>
    public double? For(Quantity measures) => measures switch
    {
        Quantity.Temperature => TemperatureK,
        Quantity.Ph => Ph,
        Quantity.Orp => OrpMillivolts,
        _ => null,
    };
}
