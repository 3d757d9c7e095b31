namespace VatWatch.Conditions;

/// <summary>The one word for a vat's condition.</summary>
public enum VatState
{
    /// <summary>What it rests on is missing or not good.</summary>
    Unknown,

    /// <summary>Below the band and rising.</summary>
    Warming,

    /// <summary>In the band, reduced, alkaline: dye.</summary>
    Ready,

    /// <summary>Recovering after a dip or an addition.</summary>
    Resting,

    /// <summary>Below the band and not rising.</summary>
    TooCold,

    /// <summary>Above the band.</summary>
    TooHot,

    /// <summary>Reduction is weak.</summary>
    Weak,

    /// <summary>The vat is oxidised.</summary>
    Oxidised,

    /// <summary>pH below the band.</summary>
    AlkaliLow,

    /// <summary>pH above the band.</summary>
    AlkaliHigh,
}
