using VatWatch.Ledger;
using VatWatch.Plans.Day;
using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Dosing;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Plans;

/// <summary>
/// What a day's goods take out of a vat, and what to give it on the way so that the last goods find the liquor that the first ones found. The ledger plays the day's dips from what
/// is in the vat now; what has sunk too far is brought back to where it was, all of it in one pause and, where the vat rests, in its rest.
/// </summary>
internal static class DayAdditions
{
    /// <summary>Stock as it is usually made, g of indigo for each litre (common practice, no source).</summary>
    public const double StockGramsPerLitre = 50;

    /// <summary>
    /// Shares of what the day began with below which a vat is given dye, reducing agent or alkali: paler by a fifth shows; half the agent still holds off the air of an hour; pH falls by
    /// about 0.1. In a rest, which costs no time, half such a loss is made good. Judgement, no source.
    /// </summary>
    private static readonly (double Dye, double Agent, double Alkali) Least = (0.8, 0.5, 0.85);

    /// <summary>A loss that is not worth weighing: share of what the day began with.</summary>
    private const double Slight = 0.05;

    private const int MostAdditions = 12;

    /// <summary>For fewer dips than these nobody waits until an addition has worked.</summary>
    private const int LeastToCome = 2;

    /// <summary>Whether something would go in after most dips: the vat is then too weak to begin the day with.</summary>
    public static bool AreTooMany(DayPlan plan) => plan.Additions.Count >= MostAdditions || plan.Additions.Count * 2 > plan.Dips.Count();

    /// <summary>The additions of a plan that has none.</summary>
    /// <param name="contents">What is in it when the day begins.</param>
    /// <param name="plan">The day's dips.</param>
    /// <param name="liquorC">How warm it is kept, °C.</param>
    public static IReadOnlyList<(int AfterDips, TimeSpan Wait, IReadOnlyList<PlannedDose> Doses)> For(VatDefinition vat, VatBalance contents, DayPlan plan, double liquorC)
    {
        var facts = LedgerFacts.Empty(vat, DisplayUnits.Si) with { Mean = (quantity, _, _) => quantity == Quantity.Temperature ? liquorC : null };
        var (dips, given) = (plan.Dips.ToList(), new List<(int AfterDips, TimeSpan Wait, IReadOnlyList<PlannedDose> Doses)>());
        var ledger = VatLedger.Through(facts with { Entries = [.. Filled(vat, facts, contents, plan.Begins.AddMinutes(-1))] }, plan.Begins);
        foreach (var (dip, i) in dips.Select((dip, i) => (dip, i)))
        {
            var grams = plan.Loads[dip.Load - 1].Goods.Grams;
            ledger.After(Entry(vat, EntryKind.Goods, dip.In) with { Amount = grams });
            ledger.After(Entry(vat, EntryKind.DipIn, dip.In));
            var after = ledger.After(Entry(vat, EntryKind.DipOut, dip.Out));
            if (i + LeastToCome >= dips.Count || given.Count >= MostAdditions)
            {
                break;
            }

            var rests = plan.Rests.Any(rest => rest.From >= dip.Out && rest.To <= dips[i + 1].In);
            if (Doses(contents, after, facts.Reducer, rests) is { Count: > 0 } doses)
            {
                given.Add((i + 1, TimeSpan.FromMinutes((doses.Any(dose => dose.Material == Material.ReducingAgent.Word()) ? DoseWait.ForReducer : DoseWait.ForAlkali).Minutes), doses));
                foreach (var dose in doses)
                {
                    ledger.After(Added(vat, dip.Out, EnumWord.Find<Material>(dose.Material)!.Value, dose.Amount));
                }
            }
        }

        return given;
    }

    private static List<PlannedDose> Doses(VatBalance before, VatBalance now, ReducerKind? reducer, bool rests)
    {
        var litres = now.Liquor.Value;
        var dye = 1 - Share(now.Indigo.Value / litres, before.Indigo.Value / before.Liquor.Value);
        var agent = reducer is null ? 0 : 1 - Share(now.Reducer.Value, before.Reducer.Value);
        var alkali = 1 - Share(now.Alkalinity.Value, before.Alkalinity.Value);
        var patience = rests ? 0.5 : 1;
        if (dye < patience * (1 - Least.Dye) && agent < patience * (1 - Least.Agent) && alkali < patience * (1 - Least.Alkali))
        {
            return [];
        }

        var doses = new List<PlannedDose>();
        Add(Material.Stock, dye, (before.Indigo.Value / before.Liquor.Value * litres - now.Indigo.Value) / StockGramsPerLitre);
        Add(Material.ReducingAgent, agent, (before.Reducer.Value - now.Reducer.Value) / (reducer?.UsualAssay ?? 1));
        Add(Material.SodaAsh, alkali, (before.Alkalinity.Value - now.Alkalinity.Value) / 1000 * litres * AlkaliProduct.SodaAsh.MolarMassGramsPerMol / 2);
        return doses;

        void Add(Material material, double lost, double amount)
        {
            if (lost > Slight && amount > 0)
            {
                doses.Add(new(material.Word(), amount));
            }
        }
    }

    private static double Share(double now, double before) => before > 0 ? now / before : 1;

    /// <summary>A log book that begins with what is in the vat.</summary>
    private static IEnumerable<SessionEntry> Filled(VatDefinition vat, LedgerFacts facts, VatBalance contents, DateTimeOffset at)
    {
        var stock = contents.Indigo.Value / StockGramsPerLitre;
        yield return Entry(vat, EntryKind.MadeAnew, at) with { Amount = contents.Liquor.Value - Math.Min(stock, 0.5 * contents.Liquor.Value) };
        yield return Added(vat, at, Material.Stock, stock);
        yield return Added(vat, at, Material.Lye, contents.Alkalinity.Value / 1000 * contents.Liquor.Value * AlkaliProduct.Lye.MolarMassGramsPerMol);
        if (facts.Reducer is { } reducer)
        {
            yield return Added(vat, at, Material.ReducingAgent, contents.Reducer.Value / reducer.UsualAssay);
        }
    }

    private static SessionEntry Added(VatDefinition vat, DateTimeOffset at, Material material, double amount) => Entry(vat, EntryKind.Added, at) with
    {
        Material = material,
        Amount = amount,
        Strength = material == Material.Stock ? StockGramsPerLitre : null,
    };

    private static SessionEntry Entry(VatDefinition vat, EntryKind kind, DateTimeOffset at) => new() { Id = 0, Vat = vat.Id, Kind = kind, At = new Stamp(at, TimeSpan.Zero, true), By = "plan" };
}
