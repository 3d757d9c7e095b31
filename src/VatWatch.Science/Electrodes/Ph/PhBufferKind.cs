namespace VatWatch.Science.Electrodes.Ph;

/// <summary>Where a buffer's figures come from.</summary>
public enum PhBufferKind
{
    /// <summary>A standard of the NBS/NIST–IUPAC set, three decimals.</summary>
    Primary,

    /// <summary>A ready-made buffer as an instrument maker tabulates it, two decimals.</summary>
    Technical,

    /// <summary>One number read off the bottle.</summary>
    Bottle,
}
