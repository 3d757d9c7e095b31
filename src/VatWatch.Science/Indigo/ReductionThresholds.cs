namespace VatWatch.Science.Indigo;

/// <summary>
/// Where one state of reduction ends and the next begins, mV. All are proposals: many published figures do not name their reference electrode, so
/// set them from your own vat's good days.
/// </summary>
/// <param name="WorkingUpToMillivolts">Highest value that is still working.</param>
/// <param name="WeakUpToMillivolts">Highest value that is weak and not yet turning.</param>
/// <param name="TurningUpToMillivolts">Highest value that is turning; above it the vat is oxidised.</param>
public sealed record ReductionThresholds(double WorkingUpToMillivolts, double WeakUpToMillivolts, double TurningUpToMillivolts)
{
    /// <summary>
    /// Readings of a chemical vat at pH 10.5 to 11.5, mV against Ag/AgCl 3 M KCl. Basis: rope dyers' habit of −730 to −860 mV with
    /// dithionite, and full reduction from about −665 mV at pH 11 by <see cref="MidpointModel"/>.
    /// </summary>
    public static ReductionThresholds Chemical { get; } = new(-660, -620, -580);

    /// <summary>
    /// Readings of a fermentation vat at pH 9 to 10.5, mV against Ag/AgCl 3 M KCl. Basis: woad vats at −523 to −558 mV, pH 9
    /// (Padden et al., Nature 396, 1998, 225).
    /// </summary>
    public static ReductionThresholds Fermentation { get; } = new(-515, -470, -430);

    /// <summary>
    /// Margins to the midpoint, mV, for chemical vats of known pH: −60 mV is 99 % reduced at 25 °C by <see cref="LeucoShare"/>. Not
    /// for fermentation vats, which work at the model's midpoint itself.
    /// </summary>
    public static ReductionThresholds ChemicalMargin { get; } = new(-60, -20, 20);
}
