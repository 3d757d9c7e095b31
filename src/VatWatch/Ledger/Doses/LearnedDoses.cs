using VatWatch.Science.Dosing;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger.Doses;

/// <summary>What the past doses of one kind teach of the next, from the log book and the stored readings alone, each time anew.</summary>
internal static class LearnedDoses
{
    /// <summary>Readings before and after are compared within so many kelvin: the law of pH and temperature is not better than that.</summary>
    private const double MostWarmingK = 5;

    /// <summary>The factor of the next dose.</summary>
    /// <param name="facts">The log book and the readings.</param>
    /// <param name="walked">What stands in the log book, with the balance before each entry, oldest first.</param>
    public static DoseFactor Of(LedgerFacts facts, IReadOnlyList<(SessionEntry Entry, VatBalance Before)> walked, VatBalance now, DoseKind kind)
    {
        var entries = walked.Select(one => one.Entry).ToList();
        var made = entries.FindLastIndex(entry => entry.Kind == EntryKind.MadeAnew);
        DoseFactor? factor = null;
        var known = 0.0;
        foreach (var dose in PastDose.In(entries, kind, now.At).Where(dose => dose.Index > made))
        {
            var before = walked[dose.Index].Before;
            if (Readings(facts, dose) is { } read && kind.Theory(facts, before, read) is { } theory)
            {
                factor = Next(before).Learn(dose.Grams, theory.Grams, Math.Sqrt(theory.LogSigma * theory.LogSigma + kind.Scatter * kind.Scatter));
                known = kind.Known(before);
            }
        }

        return Next(now);

        DoseFactor Next(VatBalance balance) => factor?.Dilute(known / kind.Known(balance)).Widen(kind.Scatter) ?? DoseFactor.Untried(kind.Untried(balance));
    }

    private static DoseReadings? Readings(LedgerFacts facts, PastDose dose)
    {
        double? Before(Quantity quantity) => facts.Mean(quantity, dose.Before.From, dose.Before.To);
        double? After(Quantity quantity) => facts.Mean(quantity, dose.After.From, dose.After.To);

        return (Before(Quantity.Temperature), After(Quantity.Temperature)) is ({ } warm, { } later) && Math.Abs(later - warm) <= MostWarmingK
            ? new(warm, later, Before(Quantity.Ph), After(Quantity.Ph), Before(Quantity.Orp), After(Quantity.Orp))
            : null;
    }
}
