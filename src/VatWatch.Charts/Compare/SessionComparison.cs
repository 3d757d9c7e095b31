using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Reports.Pdf;

namespace VatWatch.Charts.Compare;

/// <summary>Two or more sessions over each other by the time since their first dip, with a table of what differs. Thread safe.</summary>
public sealed class SessionComparison
{
    /// <summary>Compares records, each with its session; bands and units are those of the first.</summary>
    /// <exception cref="ArgumentException">Fewer than two, more than <see cref="Most"/>, or one without a session.</exception>
    public SessionComparison(IReadOnlyList<VatRecord> sessions)
    {
        if (sessions.Count < 2 || sessions.Count > Most || sessions.Any(one => one.Session is null))
            throw new ArgumentException($"there are {sessions.Count} records; wanted 2 to {Most}, each of a session", nameof(sessions));
        var first = sessions[0];
        var sameVat = sessions.All(one => one.Vat.Id == first.Vat.Id);
        (string Name, VatRecord Record)[] named = [.. sessions.Select(one => (sameVat ? one.Session!.Id.Value : $"{one.Vat.Id} {one.Session!.Id}", one))];
        var overlay = SessionOverlay.Of(named);
        var title = sameVat ? $"{first.Vat.Name}: {sessions.Count} sessions" : $"{sessions.Count} sessions";
        const string below = "laid over each other at their first dip";
        Differences = DifferenceTable.Of([.. named.Select(one => SessionSummary.Of(one.Name, one.Record))], first.Units);
        Chart = new TabledChart
        {
            Title = title,
            Below = below,
            Draw = (canvas, size, withTitle) => OverlayChart.Draw(overlay, title, below, size, canvas, withTitle),
            Tables = [Differences],
            Phone = ChartSize.Phone with { Height = ChartSize.Phone.Height + (int)OverlayChart.DipsHeight(overlay, ChartSize.Phone) },
            Paper = PaperSize.UsualWith(first.Units),
        };
    }

    /// <summary>So many sessions can be told apart by the pattern of their lines.</summary>
    public static int Most => Patterns.ChiefLines;

    /// <summary>The sessions over each other, with <see cref="Differences"/> as its table.</summary>
    public TabledChart Chart { get; }

    /// <summary>What differs, a row for each figure and a column for each session.</summary>
    public ReportTable Differences { get; }
}
