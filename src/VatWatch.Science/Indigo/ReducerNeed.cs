namespace VatWatch.Science.Indigo;

/// <summary>How much reducing agent a mass of dye, or of oxygen, takes.</summary>
public static class ReducerNeed
{
    /// <summary>
    /// Agent to weigh out for a mass of dye: theory times excess, divided by the agent's assay. The low end is theory alone, the
    /// high end theory with the excess. Excess in use: 1 to 1.3 for dithionite stock (from memory), 2.4 in a craft recipe for
    /// thiourea dioxide taken on pure indigo, 3.3 for a zinc and lime stock (Knecht, Rawson and Loewenthal, 1920).
    /// </summary>
    /// <param name="dyeGrams">Dye as weighed, g, 0 or more.</param>
    /// <param name="dyeAssay">Share of indigotin in it, above 0 to 1; natural indigo below 0.5, synthetic above 0.95.</param>
    /// <param name="excess">How many times theory, 1 or more.</param>
    /// <param name="agentAssay">Share of agent in what is weighed, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside the range named for it.</exception>
    public static MassRange ForDye(
        ReducingAgent agent, double dyeGrams, double dyeAssay = 1, double excess = 1, double agentAssay = 1)
    {
        Wanted.AtLeast(excess, 1, "");
        var theory = Wanted.NotNegative(dyeGrams, "g") * Share(dyeAssay, nameof(dyeAssay)) * agent.GramsPerGramIndigo
            / Share(agentAssay, nameof(agentAssay));
        return new MassRange(theory, theory * excess);
    }

    /// <summary>Agent that a mass of oxygen burns, from the best case to the sure one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The mass is below 0, or the assay is not above 0 to 1.</exception>
    public static MassRange ForOxygen(ReducingAgent agent, double oxygenGrams, double agentAssay = 1)
        => ForOxygen(agent, new MassRange(oxygenGrams, oxygenGrams), agentAssay);

    /// <summary>Agent that an uncertain mass of oxygen burns: least oxygen in the best case to most oxygen in the sure one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A mass is below 0, or the assay is not above 0 to 1.</exception>
    public static MassRange ForOxygen(ReducingAgent agent, MassRange oxygen, double agentAssay = 1)
    {
        var perGram = agent.GramsPerGramOxygen;
        var assay = Share(agentAssay, nameof(agentAssay));
        return new MassRange(
            Wanted.NotNegative(oxygen.LowGrams, "g", "mass of oxygen") * perGram.LowGrams / assay,
            Wanted.NotNegative(oxygen.HighGrams, "g", "mass of oxygen") * perGram.HighGrams / assay,
            oxygen.Extrapolated);
    }

    private static double Share(double value, string name)
        => value is > 0 and <= 1 ? value : throw Wanted.Refusal(value, name, "a share above 0 and up to 1");
}
