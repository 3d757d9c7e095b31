namespace VatWatch.Science.Dosing;

/// <summary>
/// Reducing agent that moves the ORP of a working vat. The potential follows the logarithm of the agent that is left, as mixed potentials do, so that a potential stands for so much
/// agent. Immutable; safe on any thread.
/// </summary>
/// <param name="FromMillivolts">ORP before, mV against the vat's reference.</param>
/// <param name="ToMillivolts">ORP after or wanted.</param>
/// <param name="WeakMillivolts">The vat's mark of a weak one, where a third of its dye counts as blue.</param>
public readonly record struct Sharpening(double FromMillivolts, double ToMillivolts, double WeakMillivolts)
{
    /// <summary>
    /// Fall of ORP that e times the agent makes, mV: between 13 (Nernst, two electrons, 45 °C) and 55 (a Tafel line of 126 mV a decade, one electron at half symmetry). Which one a vat
    /// has is not published; a judgement.
    /// </summary>
    public const double MillivoltsPerFold = 42;

    /// <summary>A usual dose takes a weak vat so far below its mark, mV (common practice, no source).</summary>
    public const double UsualFallMillivolts = 60;

    /// <summary>Share of a usual dose that it takes by theory; 0 or less where nothing is missing.</summary>
    public double Share => (Agent(ToMillivolts) - Agent(FromMillivolts)) / (Agent(WeakMillivolts - UsualFallMillivolts) - 1);

    /// <summary>Agent that stands behind the ORP before, as a share of a usual dose.</summary>
    public double AgentShare => Agent(FromMillivolts) / (Agent(WeakMillivolts - UsualFallMillivolts) - 1);

    private double Agent(double millivolts) => Math.Exp((WeakMillivolts - millivolts) / MillivoltsPerFold);
}
