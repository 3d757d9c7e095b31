using VatWatch.Daemon.Web.Vats.Figures;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>Sessions in words for people.</summary>
public static class SessionText
{
    /// <summary>For example "3 dips".</summary>
    public static string Dips(this SessionTally tally) => tally.Dips.Count switch
    {
        0 => "no dip",
        1 => "1 dip",
        var many => $"{many} dips",
    };

    /// <summary>What was added, each material once, for example "3.5 oz of soda ash, 2.0 gal of water"; empty for nothing.</summary>
    public static string Added(this SessionTally tally, DisplayUnits units) =>
        string.Join(", ", tally.Added.Select(pair => $"{pair.Key.Amount(pair.Value, units)} of {pair.Key.Name()}"));

    /// <summary>"protein" or "cellulose", and that it is the vat's own where nobody said.</summary>
    public static string FibreWords(this Session session, VatDefinition? vat) =>
        session.Details.Fibre is { } said ? said.Word() : vat is null ? "not said" : $"{vat.Fibre.Word()}, as the vat";

    /// <summary>"good", "poor" or that nobody has said.</summary>
    public static string VerdictWords(this Session session) => session.Details.Verdict?.Word() ?? "no verdict yet";

    /// <summary>The weight of the yarn; a dash when nobody said.</summary>
    public static string YarnWords(this Session session, DisplayUnits units) => session.Details.YarnGrams is { } grams ? units.Goods(grams) : FigureView.None;
}
