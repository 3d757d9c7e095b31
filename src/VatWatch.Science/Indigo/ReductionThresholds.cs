namespace VatWatch.Science.Indigo;

/// <summary>
/// Where one reduction state ends and the next begins, mV. A value exactly at a limit belongs to the stronger state. All defaults
/// are proposals: many published figures do not name their reference electrode, so set them from your own vat's good days.
/// Immutable; safe on any thread.
/// </summary>
/// <param name="OverStrongUpToMillivolts">At or below: over-strong. None where no such limit is known.</param>
/// <param name="WorkingUpToMillivolts">Above over-strong, at or below this: working.</param>
/// <param name="WeakUpToMillivolts">Then, at or below this: weak.</param>
/// <param name="TurningUpToMillivolts">Then, at or below this: turning; above it: oxidised.</param>
/// <exception cref="ArgumentOutOfRangeException">The limits do not rise in that order, or one is not a number.</exception>
public sealed record ReductionThresholds(
    double? OverStrongUpToMillivolts,
    double WorkingUpToMillivolts,
    double WeakUpToMillivolts,
    double TurningUpToMillivolts)
{
    /// <summary>
    /// Readings of a chemical vat at pH 10.5 to 11.5, mV against Ag/AgCl 3 M KCl. Basis: rope dyers' habit of −730 to −860 mV with
    /// dithionite, and full reduction from about −665 mV at pH 11 by <see cref="MidpointModel"/>.
    /// </summary>
    public static ReductionThresholds Chemical { get; } = new(-900, -660, -620, -580);

    /// <summary>
    /// Readings of a fermentation vat at pH 9 to 10.5, mV against Ag/AgCl 3 M KCl. Basis: woad vats at −523 to −558 mV, pH 9
    /// (Padden et al., Nature 396, 1998, 225).
    /// </summary>
    public static ReductionThresholds Fermentation { get; } = new(null, -515, -470, -430);

    /// <summary>
    /// Margins to the midpoint, mV, for chemical vats of known pH: −60 mV is 99 % reduced at 25 °C by <see cref="LeucoShare"/>. Not
    /// for fermentation vats, which work at the model's midpoint itself.
    /// </summary>
    public static ReductionThresholds ChemicalMargin { get; } = new(-300, -60, -20, 20);

    /// <summary>At or below: over-strong, mV.</summary>
    public double? OverStrongUpToMillivolts { get; } =
        OverStrongUpToMillivolts is { } limit ? Wanted.Finite(limit, "mV", nameof(OverStrongUpToMillivolts)) : null;

    /// <summary>Highest value that is still working, mV.</summary>
    public double WorkingUpToMillivolts { get; } =
        OverStrongUpToMillivolts is { } stronger
            ? Wanted.AtLeast(WorkingUpToMillivolts, stronger, "mV")
            : Wanted.Finite(WorkingUpToMillivolts, "mV");

    /// <summary>Highest value that is still weak, mV.</summary>
    public double WeakUpToMillivolts { get; } = Wanted.AtLeast(WeakUpToMillivolts, WorkingUpToMillivolts, "mV");

    /// <summary>Highest value that is still turning, mV.</summary>
    public double TurningUpToMillivolts { get; } = Wanted.AtLeast(TurningUpToMillivolts, WeakUpToMillivolts, "mV");

    /// <summary>The fixed thresholds of a kind of vat.</summary>
    public static ReductionThresholds For(VatChemistry chemistry)
        => chemistry == VatChemistry.Fermentation ? Fermentation : Chemical;

    /// <summary>The state of a value, in the same scale as the limits.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a number.</exception>
    public ReductionState StateAt(double millivolts) => Wanted.Finite(millivolts, "mV") switch
    {
        var value when value <= OverStrongUpToMillivolts => ReductionState.OverStrong,
        var value when value <= WorkingUpToMillivolts => ReductionState.Working,
        var value when value <= WeakUpToMillivolts => ReductionState.Weak,
        var value when value <= TurningUpToMillivolts => ReductionState.Turning,
        _ => ReductionState.Oxidised,
    };
}
