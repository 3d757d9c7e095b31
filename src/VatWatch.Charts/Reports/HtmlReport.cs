using System.Net;
using System.Text;
using VatWatch.Charts.Fonts;
using VatWatch.Charts.Recipes;

namespace VatWatch.Charts.Reports;

/// <summary>The report as one HTML file that needs nothing else: no script, no link, the pictures and the font inside.</summary>
internal static class HtmlReport
{
    // A probe that flickers all night must not make a page of a hundred thousand lines; CSV holds every reading.
    private const int MostRows = 200;

    /// <summary>The whole page.</summary>
    public static string Of(VatRecord record, ReportOptions options)
    {
        var figures = new SessionFigures(record, options.Zone);
        var name = Escape(record.Vat.Name);
        var page = new StringBuilder();
        page.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append($"<title>{name}, {Escape(figures.Span)}</title>\n")
            .Append($"<style>{ChartFont.FontFaceCss}\n{Style}</style>\n</head>\n<body>\n<main>\n")
            .Append($"<header>\n<h1>{name}</h1>\n<p>{Escape(figures.Span)}<br>{Escape(figures.Vat)}</p>\n</header>\n")
            .Append("<figure class=\"wide\">").Append(SessionChart.SvgForPage(record, options.Zone, ChartSize.Page, "wide-")).Append("</figure>\n")
            .Append("<figure class=\"narrow\">").Append(SessionChart.SvgForPage(record, options.Zone, ChartSize.Phone, "narrow-")).Append("</figure>\n");
        AppendFigures(page, figures);
        AppendAlarms(page, figures);
        AppendGaps(page, figures);
        return page.Append($"<footer>Times are {Escape(figures.Zone)}. {ReportWords.Caution}</footer>\n</main>\n</body>\n</html>\n").ToString();
    }

    private static void AppendFigures(StringBuilder page, SessionFigures figures)
    {
        page.Append("<section>\n<h2>Figures</h2>\n");
        if (figures.Figures.Count == 0)
            page.Append("<p>Nothing was recorded.</p>\n");
        else
        {
            page.Append("<table class=\"figures\">\n");
            foreach (var row in figures.Figures)
                page.Append($"<tr><th scope=\"row\">{Escape(row.Label)}</th><td>{Escape(row.Value)}</td></tr>\n");
            page.Append("</table>\n");
        }

        page.Append("</section>\n");
    }

    private static void AppendAlarms(StringBuilder page, SessionFigures figures) => AppendTable(
        page, "Alarms", "No alarm entered.", ["Alarm", "Priority", "Entered", "Acknowledged", "Ended"],
        [.. figures.Alarms.Select(row => (string[])
            [$"<b>{Escape(row.Alarm)}</b><br>{Escape(row.Text)}", Escape(row.Priority), Escape(row.Entered), Escape(row.Acknowledged), Escape(row.Ended)])]);

    private static void AppendGaps(StringBuilder page, SessionFigures figures)
    {
        AppendTable(
            page, "Time without readings", "Every probe read all the time.", ["Probe", "What", "From", "To", "Length", "Reason"],
            [.. figures.Gaps.Select(row => (string[])
                [Escape(row.Probe), Escape(row.What), Escape(row.From), Escape(row.To), Escape(row.Length), Escape(row.Reason)])]);
        if (figures.ShortGaps > 0)
            page.Append($"<p>{ReportWords.ShortGaps(figures.ShortGaps)}</p>\n");
    }

    private static void AppendTable(StringBuilder page, string heading, string none, string[] columns, IReadOnlyList<string[]> escapedRows)
    {
        page.Append($"<section>\n<h2>{heading}</h2>\n");
        if (escapedRows.Count == 0)
        {
            page.Append($"<p>{none}</p>\n</section>\n");
            return;
        }

        page.Append("<table>\n<thead><tr>").AppendJoin("", columns.Select(column => $"<th scope=\"col\">{column}</th>")).Append("</tr></thead>\n<tbody>\n");
        foreach (var row in escapedRows.Take(MostRows))
            page.Append("<tr>").AppendJoin("", row.Select((cell, i) => $"<td data-label=\"{columns[i]}\">{cell}</td>")).Append("</tr>\n");
        page.Append("</tbody>\n</table>\n");
        if (escapedRows.Count > MostRows)
            page.Append($"<p>And {escapedRows.Count - MostRows} more.</p>\n");
        page.Append("</section>\n");
    }

    private static string Escape(string text) => WebUtility.HtmlEncode(OneLine.Of(text));

    private const string Style = """
        :root { color: #22252e; background: #fff; font: 15px/1.45 'DejaVu Sans Condensed', sans-serif; }
        body { margin: 0; }
        main { max-width: 760px; margin: 0 auto; padding: 16px; }
        h1 { color: #1f3566; font-size: 1.6em; margin: 0; overflow-wrap: anywhere; }
        h2 { font-size: 1.05em; margin: 1.4em 0 .4em; border-bottom: 1px solid #b3aea2; }
        header p, footer, section p { color: #5d6270; margin: .2em 0 .8em; }
        footer { border-top: 1px solid #b3aea2; margin-top: 2em; padding-top: .5em; font-size: .85em; }
        figure { margin: 0; }
        figure svg { display: block; width: 100%; height: auto; }
        figure.narrow { display: none; }
        table { border-collapse: collapse; width: 100%; font-size: .92em; }
        th, td { text-align: left; vertical-align: top; padding: .3em .6em .3em 0; border-bottom: 1px solid #dcdcd6; overflow-wrap: anywhere; }
        thead th { color: #5d6270; font-weight: normal; }
        .figures th { font-weight: normal; width: 55%; }
        @media screen and (max-width: 600px) {
          figure.wide { display: none; }
          figure.narrow { display: block; }
          main { padding: 8px 10px; }
          table:not(.figures) thead { display: none; }
          table:not(.figures) tr { display: block; padding: .4em 0; border-bottom: 1px solid #b3aea2; }
          table:not(.figures) td { display: block; border: 0; padding: .05em 0; }
          table:not(.figures) td:not(:empty):not(:first-child)::before { content: attr(data-label) ": "; color: #5d6270; }
        }
        @page { margin: 12mm; }
        @media print {
          main { padding: 0; max-width: none; }
          figure.wide svg { max-height: 240mm; }
          figure, tr { break-inside: avoid; }
          h2 { break-after: avoid; }
          :root { font-size: 11px; }
        }

        """;
}
