namespace VatWatch.Conditions.Reduction;

/// <summary>How far a vat is today from its good days.</summary>
/// <param name="OrpMillivolts">ORP less that of good days at the same pH and temperature, mV; above 0 weaker than usual.</param>
/// <param name="OrpSpreads">That in spreads of the good days.</param>
/// <param name="Ph">pH less that of good days, at one temperature.</param>
/// <param name="PhSpreads">That in spreads of the good days.</param>
public sealed record BaselineDistance(double OrpMillivolts, double OrpSpreads, double Ph, double PhSpreads);
