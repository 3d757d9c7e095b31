namespace VatWatch.Calibration;

/// <summary>How several buffers are turned into pH.</summary>
public enum PhFitKind
{
    /// <summary>One line for all: through one or two buffers, the least squares of three.</summary>
    Line,

    /// <summary>A straight piece between each two neighbouring buffers; the pair that brackets the liquor counts.</summary>
    Pieces,
}
