namespace VatWatch.Vats;

/// <summary>What keeps the vat reduced.</summary>
public enum ReducingAgent
{
    /// <summary>Thiourea dioxide, CH4N2O2S.</summary>
    ThioureaDioxide,

    /// <summary>Sodium dithionite, the "hydrosulfite" of the trade.</summary>
    Dithionite,

    /// <summary>Fructose with lime.</summary>
    Fructose,

    /// <summary>Bacteria.</summary>
    Fermentation,
}
