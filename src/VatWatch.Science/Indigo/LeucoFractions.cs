namespace VatWatch.Science.Indigo;

/// <summary>Shares of the three forms of dissolved leuco-indigo; together 1. Immutable; safe on any thread.</summary>
/// <param name="Unionised">Un-ionised, poorly soluble: whitish turbid liquor when it is large.</param>
/// <param name="MonoIon">Mono-ion, the form with the best colour yield on cotton.</param>
/// <param name="DiIon">Di-ion: more soluble, redder and lighter shades.</param>
public readonly record struct LeucoFractions(double Unionised, double MonoIon, double DiIon);
