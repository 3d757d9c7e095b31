namespace VatWatch.Vats;

/// <summary>Potentials that tell a working vat from a failing one, mV against the named reference electrode.</summary>
/// <param name="WeakMillivolts">Above this the reduction is weak.</param>
/// <param name="OxidisedMillivolts">Above this the vat is oxidised.</param>
/// <param name="Reference">Reference electrode of all potentials of this vat, for example "Ag/AgCl 3 M KCl".</param>
/// <param name="RisingMillivoltsPerHour">A faster rise than this is a failing vat.</param>
public sealed record OrpLimits(double WeakMillivolts, double OxidisedMillivolts, string Reference, double RisingMillivoltsPerHour);
