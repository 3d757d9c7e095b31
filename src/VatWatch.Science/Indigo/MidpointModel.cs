using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Indigo;

/// <summary>
/// The potential at which half of the indigo is reduced, as a function of pH, mV against Ag/AgCl in 3 mol/L KCl.
/// <para>
/// Anchor: −650 mV at pH 13, 25 °C, a re-oxidation peak in 0.1 mol/L NaOH (J. Solid State Electrochem., 2011, indirect reduction of
/// dispersed indigo); a peak, not a formal potential, so ±40 mV, held constant with temperature. From there the dissociation of
/// leuco-indigo gives the course with pH (derived here): about −30 mV per pH between its two constants. Indigo that stays solid
/// and un-ionised follows −60 mV per pH (Bond et al., J. Chem. Soc. Perkin Trans. 2, 1997, 1735); set
/// <see cref="StraightSlopeMillivoltsPerPh"/> for a vat between the two.
/// </para>
/// Treat its result as an index to follow, not an assay. Immutable; safe on any thread.
/// </summary>
public sealed record MidpointModel
{
    /// <summary>How far the anchor may be off, mV, either sign.</summary>
    public const double UncertaintyMillivolts = 40;

    private readonly double anchorMillivolts = -650;
    private readonly double? straightSlopeMillivoltsPerPh;
    private readonly double straightPivotPh = 11;

    /// <summary>The model with its default anchor and published constants.</summary>
    public static MidpointModel Default { get; } = new();

    public static double AnchorPh => 13;

    /// <summary>Midpoint at <see cref="AnchorPh"/>, mV against Ag/AgCl 3 M KCl; default −650.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not a number.</exception>
    public double AnchorMillivolts
    {
        get => anchorMillivolts;
        init => anchorMillivolts = Wanted.Finite(value, "mV", nameof(AnchorMillivolts));
    }

    /// <summary>The acid constants that shape the curve.</summary>
    public LeucoIndigoAcidity Acidity { get; init; } = LeucoIndigoAcidity.Published;

    /// <summary>
    /// None (the default) follows the dissociation; a number from −60 to −30 takes instead a straight line of that slope at 25 °C,
    /// growing with absolute temperature, through the curve at <see cref="StraightPivotPh"/>.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The slope is not within −60 to −30 mV per pH.</exception>
    public double? StraightSlopeMillivoltsPerPh
    {
        get => straightSlopeMillivoltsPerPh;
        init => straightSlopeMillivoltsPerPh =
            value is { } slope ? Wanted.Within(slope, -60, -30, "mV", nameof(StraightSlopeMillivoltsPerPh)) : null;
    }

    /// <summary>pH at which the straight line meets the curve; default 11, where the trade's −600 mV agrees with the curve.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not within 7 to 14.</exception>
    public double StraightPivotPh
    {
        get => straightPivotPh;
        init => straightPivotPh = Wanted.Within(value, 7, 14, "", nameof(StraightPivotPh));
    }

    /// <summary>
    /// The midpoint, mV against Ag/AgCl 3 M KCl at the same temperature; flagged outside pH 8.5 to 13 or 5 to 60 °C, where nothing
    /// compares with it.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The pH is not within −2 to 16, or the temperature does not exist.</exception>
    public Estimate MidpointMillivolts(double ph, double temperatureC)
    {
        var midpoint = StraightSlopeMillivoltsPerPh is { } slopeAt25
            ? Curve(StraightPivotPh, temperatureC) + (Wanted.Within(ph, -2, 16, "") - StraightPivotPh) * slopeAt25 * AgainstAt25(temperatureC)
            : Curve(ph, temperatureC);
        return Estimate.InRange(midpoint, ph, 8.5, 13).OrExtrapolated(temperatureC is < 5 or > 60);
    }

    private double Curve(double ph, double temperatureC)
        => AnchorMillivolts + Nernst.SlopeMillivoltsPerPh(temperatureC) / 2
            * (Acidity.LogBindingPolynomial(ph, temperatureC) - Acidity.LogBindingPolynomial(AnchorPh, temperatureC));

    private static double AgainstAt25(double temperatureC)
        => Nernst.SlopeMillivoltsPerPh(temperatureC) / Nernst.SlopeMillivoltsPerPh(25);
}
