namespace VatWatch.Charts.Figures;

/// <summary>The figures of a session that say something about the next one. What is not known is null.</summary>
internal sealed record NextTimeFacts
{
    public TimeSpan AboveLimit { get; init; }

    /// <summary>From when the liquor first left the band upwards until it was hottest: so much too long did the heater heat.</summary>
    public TimeSpan? OvershootTime { get; init; }

    /// <summary>Time above the threshold of an oxidised vat.</summary>
    public TimeSpan Oxidised { get; init; }

    /// <summary>Whether the lid was noted as off for most of an hour or more.</summary>
    public bool LongOpen { get; init; }

    /// <summary>Liquor at the first dip less the low end of the band, K; below 0 it was too cold.</summary>
    public double? FirstDipAboveLowK { get; init; }

    /// <summary>How long the heater would still have taken to the band at the first dip, by the heat balance of this vat.</summary>
    public TimeSpan? ToBandAtFirstDip { get; init; }

    /// <summary>Recovery time after each dip, from the first; null where the vat did not come back.</summary>
    public IReadOnlyList<TimeSpan?> Recoveries { get; init; } = [];

    /// <summary>The weakest margin of reduction when yarn went in, mV, and before which dip.</summary>
    public (double Millivolts, int Dip)? WeakestMargin { get; init; }

    public double MarginUncertainty { get; init; }

    /// <summary>First and last good pH of the work: while the liquor warms, pH falls without anything being used up.</summary>
    public (double First, double Last)? Ph { get; init; }

    /// <summary>The wanted pH.</summary>
    public PhBand? PhBand { get; init; }

    public TimeSpan InBand { get; init; }

    /// <summary>Names of the alarms of some weight that were still on at the end.</summary>
    public IReadOnlyList<string> StillOn { get; init; } = [];

    public int Dips { get; init; }
}
