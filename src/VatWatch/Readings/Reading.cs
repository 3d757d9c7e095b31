using VatWatch.Probes;

namespace VatWatch.Readings;

/// <summary>One sample with who, when and how long it took. Never altered after it was made.</summary>
/// <param name="Sample">What it gave, in the probe's own unit.</param>
/// <param name="Stamp">When, by both clocks.</param>
/// <param name="Took">How long the exchange took, by the clock of the wall.</param>
public readonly record struct Reading(VatId Vat, ProbeId Probe, Quantity Quantity, Sample Sample, Stamp Stamp, TimeSpan Took);
