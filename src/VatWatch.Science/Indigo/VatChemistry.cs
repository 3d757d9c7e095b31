namespace VatWatch.Science.Indigo;

/// <summary>How a vat is reduced, as far as its potentials are concerned.</summary>
public enum VatChemistry
{
    /// <summary>By a reducing agent: thiourea dioxide, dithionite, sugar, iron or zinc; pH about 10 to 12.</summary>
    Chemical,

    /// <summary>By living ferment, such as a woad vat; pH about 9 to 10.5 and some 100 mV less negative.</summary>
    Fermentation,
}
