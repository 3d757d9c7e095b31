using VatWatch.Ledger.Doses;
using VatWatch.Science.Dosing;

namespace VatWatch.Ledger;

/// <summary>What to do about a weak vat, in the order in which it helps: warmth first, then alkali, reducing agent, dye.</summary>
internal static class RevivalSteps
{
    /// <summary>A cause with a smaller share is not acted on.</summary>
    private const double LeastShare = 0.15;

    /// <summary>A working vat of medium strength, g/L (common practice, no source).</summary>
    private const double WorkingGramsPerLitre = 1.5;

    private static readonly VatCause[] Order = [VatCause.Electrode, VatCause.Cold, VatCause.Air, VatCause.Alkali, VatCause.ReducingAgent, VatCause.DyeSpent];

    public static IReadOnlyList<string> For(WeakVat vat, VatBalance balance, IReadOnlyList<(VatCause Cause, double Share)> causes)
    {
        var likely = causes.Where(one => one.Share >= LeastShare).Select(one => one.Cause).ToHashSet();
        return [.. Order.Where(likely.Contains).SelectMany(cause => For(cause, vat, balance)), "After each step wait, look and read again before the next; stop as soon as the vat is well."];
    }

    private static IEnumerable<string> For(VatCause cause, WeakVat vat, VatBalance balance) => cause switch
    {
        VatCause.Electrode =>
        [
            "Rinse the electrodes and try them in a buffer and a check solution before anything is added.",
        ],
        VatCause.Cold =>
        [
            $"Warm it to {vat.Facts.Units.Temperature((vat.Facts.Vat.Temperature.LowC + vat.Facts.Vat.Temperature.HighC) / 2)} first: cold, the reducing agent hardly works. Somebody stays with the heater.",
        ],
        VatCause.Air =>
        [
            "Keep air out: lid on, skim broken flower off, let goods in and out without splashing, stir below the surface.",
        ],
        VatCause.Alkali => Alkali(vat, balance),
        VatCause.ReducingAgent => Reducer(vat, balance),
        _ => Dye(vat, balance),
    };

    private static IEnumerable<string> Alkali(WeakVat vat, VatBalance balance)
    {
        var answer = VatDose.SodaAsh(vat, balance).Answer;
        yield return answer.IsRefused
            ? $"No alkali: {answer.Refusal}"
            : $"Soda ash: dissolve {vat.Facts.Units.Mass(answer.Advice.FirstPortionGrams)} in warm water, stir it in, wait {Minutes(answer.Advice)} and read the pH again; {InAll(answer.Advice, vat)}.";
    }

    private static IEnumerable<string> Reducer(WeakVat vat, VatBalance balance)
    {
        if (vat.Facts.Reducer is not { } kind)
        {
            yield return "Feed the ferment, keep it warm and give it a night.";
            yield break;
        }

        var answer = VatDose.Reducer(vat with { TemperatureC = vat.TemperatureC ?? LedgerConstants.RoomC }, balance).Answer;
        yield return answer.IsRefused
            ? $"No reducing agent: {answer.Refusal}"
            : $"{kind.Agent.Substance.Name.Capitalized()}: dissolve {vat.Facts.Units.Mass(answer.Advice.FirstPortionGrams)}, stir it in below the surface, lid on, wait {Minutes(answer.Advice)}; look for clear yellow liquor and a falling ORP; {InAll(answer.Advice, vat)}.";
    }

    private static string Minutes(DoseAdvice advice) => $"{advice.Wait.LeastMinutes} to {advice.Wait.MostMinutes} min";

    private static string InAll(DoseAdvice advice, WeakVat vat) =>
        $"in all about {vat.Facts.Units.Mass(advice.Grams)}, by {(advice.PastDoses == 0 ? "theory" : advice.PastDoses == 1 ? "this vat's answer to 1 past dose" : $"this vat's answers to {advice.PastDoses} past doses")}";

    private static IEnumerable<string> Dye(WeakVat vat, VatBalance balance)
    {
        var wanted = WorkingGramsPerLitre * balance.Liquor.Value - balance.Indigo.Value;
        yield return wanted > 0
            ? $"Dye: give stock with {vat.Facts.Units.Mass(wanted)} of indigo, which makes {WorkingGramsPerLitre:0.#} g/L, or as much as the shade asks for; then let it stand until it is yellow."
            : "Dye: by the ledger there is enough; read again, or write down an assay, before you add any.";
    }
}
