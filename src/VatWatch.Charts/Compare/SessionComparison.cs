using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Reports.Pdf;

namespace VatWatch.Charts.Compare;

/// <summary>Two or more sessions over each other by the time since their first dip, with a table of what differs. Thread safe.</summary>
public sealed class SessionComparison
{
    private readonly TabledChart _chart;
    private readonly VatRecord _first;

    /// <summary>Compares records, each with its session; bands and units are those of the first.</summary>
    /// <exception cref="ArgumentException">Fewer than two, more than <see cref="Most"/>, or one without a session.</exception>
    public SessionComparison(IReadOnlyList<VatRecord> sessions)
    {
        if (sessions.Count < 2 || sessions.Count > Most || sessions.Any(one => one.Session is null))
            throw new ArgumentException($"there are {sessions.Count} records; wanted 2 to {Most}, each of a session", nameof(sessions));
        _first = sessions[0];
        var sameVat = sessions.All(one => one.Vat.Id == _first.Vat.Id);
        (string Name, VatRecord Record)[] named = [.. sessions.Select(one => (sameVat ? one.Session!.Id.Value : $"{one.Vat.Id} {one.Session!.Id}", one))];
        var overlay = SessionOverlay.Of(named);
        var title = sameVat ? $"{_first.Vat.Name}: {sessions.Count} sessions" : $"{sessions.Count} sessions";
        const string below = "laid over each other at their first dip";
        Differences = DifferenceTable.Of([.. named.Select(one => SessionSummary.Of(one.Name, one.Record))], _first.Units);
        _chart = new TabledChart
        {
            Title = title,
            Below = below,
            Draw = (canvas, size, withTitle) => OverlayChart.Draw(overlay, title, below, size, canvas, withTitle),
            Tables = [Differences],
            Phone = ChartSize.Phone with { Height = ChartSize.Phone.Height + (int)OverlayChart.DipsHeight(overlay, ChartSize.Phone) },
        };
    }

    /// <summary>So many sessions can be told apart by the pattern of their lines.</summary>
    public static int Most => Patterns.ChiefLines;

    /// <summary>What differs, a row for each figure and a column for each session.</summary>
    public ReportTable Differences { get; }

    public string Svg(ChartSize size) => TabledChartWriter.Svg(_chart, size, standsAlone: true);

    /// <summary>Writes .html, .pdf, .png or .svg; the file appears only when it is whole.</summary>
    /// <exception cref="UnknownReportFormatException">Another extension.</exception>
    public void Write(string path, ReportOptions options) => TabledChartWriter.Write(_chart, options, PaperSize.UsualWith(_first.Units), path);

    /// <summary>Writes to a stream, which is left open, in the format of <paramref name="fileName"/>'s extension.</summary>
    /// <exception cref="UnknownReportFormatException">Another extension.</exception>
    public void Write(string fileName, ReportOptions options, Stream stream) => TabledChartWriter.Write(_chart, options, PaperSize.UsualWith(_first.Units), fileName, stream);
}
