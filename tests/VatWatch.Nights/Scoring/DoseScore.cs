using VatWatch.Ledger;
using VatWatch.Nights.Scenes;
using VatWatch.Sessions.Entries;

namespace VatWatch.Nights.Scoring;

/// <summary>How well doses by response and the ledger do over the weeks of one vat.</summary>
/// <param name="Doses">Every dose that was asked for.</param>
/// <param name="Lines">The ledger of each seventh evening beside the truth.</param>
internal sealed record DoseScore(int Seed, string Story, IReadOnlyList<AskedDose> Doses, IReadOnlyList<ToldLine> Lines)
{
    private const int MostDays = 50;
    private const int Weekly = 7;

    /// <summary>Works a vat until both kinds of dose were asked for this many times after the first.</summary>
    public static DoseScore Of(int seed, int until)
    {
        var vat = new DosedVat(seed);
        var (doses, lines) = (new List<AskedDose>(), new List<ToldLine>());
        for (var day = 0; day < MostDays && (vat.Given(Material.SodaAsh) <= until || vat.Given(Material.ReducingAgent) <= until); day++)
        {
            doses.AddRange(vat.Work());
            if (vat.IsLogged && day % Weekly == Weekly - 1)
                lines.AddRange(Look(vat));
        }

        return new(seed, vat.Story, doses, lines);
    }

    private static IEnumerable<ToldLine> Look(DosedVat vat)
    {
        var (balance, truth) = (vat.Look(), vat.Truth);
        yield return new("liquor", balance.Liquor, truth.Litres);
        yield return new("indigo", balance.Indigo, truth.Indigo);
        yield return new("alkalinity", balance.Alkalinity, 1000 * truth.Alkalinity);
        yield return new("carbonate", balance.Carbonate, 1000 * truth.Carbon);
        yield return new("reducer", balance.Reducer, truth.Agent * truth.Litres);
    }
}

/// <summary>A line of the ledger beside the truth.</summary>
internal sealed record ToldLine(string Name, Holding Told, double Truth)
{
    public bool Holds => Truth >= Told.Low && Truth <= Told.High;
}
