using VatWatch.Science.Dosing;

namespace VatWatch.Ledger.Doses;

/// <summary>The next dose of a vat by its ledger, its probes and its own past answers. Immutable.</summary>
/// <param name="Answer">The advice, or why none is given.</param>
public sealed record VatDose(DoseAnswer Answer)
{
    /// <summary>The wanted ORP lies so far below the vat's mark of a weak one where nobody says, mV (common practice, no source).</summary>
    private const double BelowWeakMillivolts = 40;

    /// <summary>Share of the dye that counts as blue in a weak vat (a judgement).</summary>
    private const double BlueShare = 1.0 / 3;

    /// <summary>g; null when refused.</summary>
    public double? Grams => Answer.Advice?.Grams;

    /// <summary>Low end of its range of 80 %, g.</summary>
    public double? LowGrams => Answer.Advice?.LowGrams;

    /// <summary>High end, g.</summary>
    public double? HighGrams => Answer.Advice?.HighGrams;

    /// <summary>Past doses it rests on.</summary>
    public int PastDoses => Answer.Advice?.PastDoses ?? 0;

    /// <summary>Soda ash to a pH at the liquor's own temperature.</summary>
    /// <param name="balance">Its ledger now.</param>
    /// <param name="targetPh">The wanted pH; null: the middle of the vat's band.</param>
    public static VatDose SodaAsh(WeakVat vat, VatBalance balance, double? targetPh = null)
    {
        var definition = vat.Facts.Vat;
        return new((vat.TemperatureC, vat.Ph, targetPh ?? UsualPh(definition)) switch
        {
            (null, _, _) => DoseAnswer.Refuse($"the temperature of {definition.Name} is not known; wanted a fresh good reading, or one that is said."),
            (_, null, _) => DoseAnswer.Refuse($"the pH of {definition.Name} is not known; wanted a fresh good reading, or one that is said."),
            (_, _, null) => DoseAnswer.Refuse($"{definition.Name} has no band of pH in the configuration; wanted one, or a pH to aim at."),
            ({ } warm, { } ph, { } target) => AlkaliDosing.Answer(new AlkaliDoseRequest(balance.Liquor.Value, warm, ph, target)
            {
                Fibre = Limit(definition),
                CarbonateMmolPerLitre = balance.Carbonate.Value,
                Factor = balance.SodaAshFactor,
            }),
        });
    }

    /// <summary>Reducing agent to an ORP; by theory alone where no ORP is measured.</summary>
    /// <param name="balance">Its ledger now.</param>
    /// <param name="targetMillivolts">The wanted ORP; null: somewhat below the mark of a weak vat.</param>
    public static VatDose Reducer(WeakVat vat, VatBalance balance, double? targetMillivolts = null)
    {
        var definition = vat.Facts.Vat;
        if (vat.Facts.Reducer is not { } kind)
        {
            return new(DoseAnswer.Refuse($"{definition.Name} is kept reduced by {definition.Reducer.Word()}, for which no dose is worked out; wanted one of {string.Join(", ", ReducerKind.All.Select(one => one.Name))}."));
        }

        if (vat.TemperatureC is not { } warm)
        {
            return new(DoseAnswer.Refuse($"the temperature of {definition.Name} is not known; wanted a fresh good reading, or one that is said."));
        }

        var request = Request(kind, balance.Liquor.Value, warm);
        return new(ReducerDosing.Answer((vat.OrpMillivolts, definition.Orp) is ({ } orp, { } limits)
            ? request with { Sharpening = new(orp, targetMillivolts ?? limits.WeakMillivolts - BelowWeakMillivolts, limits.WeakMillivolts), Factor = balance.ReducerFactor }
            : request));
    }

    /// <summary>
    /// The usual dose of a vat that has become weak. It is that of a vat of medium strength whatever dye is left: free agent is kept against the air and is not tied to the dye (rope dyers' habit,
    /// indigo-chemistry reference, section 1.4).
    /// </summary>
    internal static ReducerDoseRequest Request(ReducerKind kind, double litres, double temperatureC) =>
        new(kind, litres, temperatureC, BlueShare * LedgerConstants.UnknownIndigoGrams.Mean * litres);

    /// <summary>The pH a vat is brought to where nobody says: the middle of its band, as far as its fibre stands it; null without a band.</summary>
    public static double? UsualPh(VatDefinition vat) => vat.Ph is { } band ? Math.Min((band.Low + band.High) / 2, Limit(vat).HighestPh) : null;

    private static FibreLimit Limit(VatDefinition vat) => vat.Fibre == Fibre.Protein ? FibreLimit.Protein() : FibreLimit.Cellulose();
}
