namespace VatWatch.Science.Indigo;

/// <summary>A substance of the vat. Immutable; safe on any thread.</summary>
/// <param name="Name">Its name in the trade.</param>
/// <param name="Formula">Its formula; water of crystallisation after a middle dot.</param>
/// <param name="CasNumber">Its CAS registry number (from memory unless a source is named).</param>
/// <param name="MolarMassGramsPerMole">Molar mass, g/mol.</param>
public sealed record Substance(string Name, string Formula, string CasNumber, double MolarMassGramsPerMole);
