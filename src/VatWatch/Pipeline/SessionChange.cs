namespace VatWatch.Pipeline;

/// <summary>The log book of a vat has a new or changed line; told to those who look at it.</summary>
/// <param name="Vat">The vat.</param>
public sealed record SessionChange(VatId Vat);
