namespace VatWatch.Sessions;

/// <summary>What may be added to a vat.</summary>
public enum Material
{
    /// <summary>Sodium carbonate; g.</summary>
    SodaAsh,

    /// <summary>The vat's reducing agent; g.</summary>
    ReducingAgent,

    /// <summary>Reduced dye stock; L.</summary>
    Stock,

    /// <summary>Water; L.</summary>
    Water,
}
