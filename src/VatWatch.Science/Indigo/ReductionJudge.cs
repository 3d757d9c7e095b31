using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Indigo;

/// <summary>
/// Puts the reduction state of a vat together: first whether the reading can be a vat's at all, then the state, by the margin to the
/// midpoint where that holds (chemical vat, pH known) and else by the fixed thresholds. Call for an alarm only after the state has
/// lasted 15 to 30 min. Immutable; safe on any thread.
/// </summary>
public sealed record ReductionJudge
{
    /// <summary>A judge with the default thresholds of a kind of vat.</summary>
    public static ReductionJudge For(VatChemistry chemistry) => new()
    {
        Fixed = ReductionThresholds.For(chemistry),
        ByMargin = chemistry == VatChemistry.Chemical ? ReductionThresholds.ChemicalMargin : null,
    };

    /// <summary>Thresholds for readings, mV against Ag/AgCl 3 M KCl.</summary>
    public required ReductionThresholds Fixed { get; init; }

    /// <summary>Thresholds for the margin to the midpoint, mV; none to judge by <see cref="Fixed"/> alone.</summary>
    public ReductionThresholds? ByMargin { get; init; }

    /// <summary>The midpoint that margins are measured from.</summary>
    public MidpointModel Midpoint { get; init; } = MidpointModel.Default;

    /// <summary>A reading above this is no vat's, mV against Ag/AgCl 3 M KCl; a proposal, default +400.</summary>
    public double NoContactAboveMillivolts { get; init; } = 400;

    /// <summary>A reading this far below the hydrogen line is no vat's, mV; a proposal, default 150.</summary>
    public double NoContactBelowHydrogenLineMillivolts { get; init; } = 150;

    /// <summary>The state of a vat.</summary>
    /// <param name="orpMillivolts">Reading, mV against Ag/AgCl 3 M KCl (see <see cref="RedoxPotential"/> for others).</param>
    /// <param name="ph">pH at the liquor's temperature; none when it is not known, which leaves the fixed thresholds.</param>
    /// <param name="temperatureC">Temperature of the liquor, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not a number, the pH is not within −2 to 16, or the temperature does not exist.</exception>
    public ReductionState StateOf(double orpMillivolts, double? ph, double temperatureC)
    {
        Wanted.Finite(orpMillivolts, "mV");
        Wanted.TemperatureC(temperatureC);
        if (orpMillivolts > NoContactAboveMillivolts)
            return ReductionState.NoContact;

        if (ph is not { } knownPh)
            return Fixed.StateAt(orpMillivolts);

        if (orpMillivolts < HydrogenLine(knownPh, temperatureC) - NoContactBelowHydrogenLineMillivolts)
            return ReductionState.NoContact;

        return ByMargin is { } margins
            ? margins.StateAt(Midpoint.MarginMillivolts(orpMillivolts, knownPh, temperatureC).Value)
            : Fixed.StateAt(orpMillivolts);
    }

    private static double HydrogenLine(double ph, double temperatureC)
        => RedoxPotential.FromShe(
            WaterStability.HydrogenLineMillivolts(ph, temperatureC), ReferenceElectrode.SilverChloride3M, temperatureC).Value;
}
