namespace VatWatch.Conditions.Reduction;

/// <summary>One reading of a vat in a session that was marked good.</summary>
/// <param name="OrpMillivolts">ORP, mV against the vat's reference electrode.</param>
/// <param name="Ph">pH at <paramref name="TemperatureC"/>.</param>
/// <param name="TemperatureC">Liquor, °C.</param>
public readonly record struct GoodReading(double OrpMillivolts, double Ph, double TemperatureC);
