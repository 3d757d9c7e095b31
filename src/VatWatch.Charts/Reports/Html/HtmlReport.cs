using System.Net;
using System.Text;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Reports.Content;

namespace VatWatch.Charts.Reports.Html;

/// <summary>The report as one HTML file that needs nothing else: no script, no link, the pictures and the font inside.</summary>
internal static class HtmlReport
{
    /// <summary>The whole page.</summary>
    public static string Of(VatRecord record, ReportOptions options)
    {
        // The three parts know nothing of each other; the first drawing of a process is the dearest of them.
        SessionFigures? worked = null;
        var (wide, narrow) = ("", "");
        Parallel.Invoke(
            () => wide = SessionChart.SvgForPage(record, options.Zone, ChartSize.Page, "wide-"),
            () => worked = new SessionFigures(record, options.Zone),
            () => narrow = SessionChart.SvgForPage(record, options.Zone, SessionChart.Grown(record, ChartSize.Phone), "narrow-"));
        var figures = worked!;
        var name = Escape(record.Vat.Name);
        var page = new StringBuilder();
        var head = $"{(figures.Session is { } session ? $"{Escape(session)}<br>" : "")}{Escape(figures.Span)}<br>{Escape(figures.Vat)}";
        HtmlPage.Begin(page, $"{name}, {Escape(figures.Span)}", name, head);
        HtmlPage.Figures(page, wide, narrow);
        if (figures.SummedUp is { } how)
            page.Append($"<p>{Escape(how)}</p>\n");
        AppendPhotos(page, record, figures);
        AppendSuggestions(page, figures);
        AppendFigures(page, figures);
        foreach (var table in figures.Tables)
            HtmlTable.Append(page, table);
        AppendAlarms(page, figures);
        AppendGaps(page, figures);
        return HtmlPage.End(page, $"Times are {Escape(figures.Zone)}. {ReportText.Caution}");
    }

    private static void AppendPhotos(StringBuilder page, VatRecord record, SessionFigures figures)
    {
        if (record.Photos.Count == 0)
            return;
        page.Append("<section class=\"photos\">\n<h2>Photographs</h2>\n");
        foreach (var photo in record.Photos)
        {
            var caption = figures.Caption(photo);
            page.Append($"<figure><img src=\"data:image/jpeg;base64,{Convert.ToBase64String(photo.Jpeg)}\" width=\"{photo.Width}\" height=\"{photo.Height}\" alt=\"{Escape(caption)}\">")
                .Append($"<figcaption>{Escape(caption)}</figcaption></figure>\n");
        }

        page.Append("</section>\n");
    }

    private static void AppendSuggestions(StringBuilder page, SessionFigures figures)
    {
        if (figures.Suggestions.Count > 0)
            page.Append("<section>\n<h2>For next time</h2>\n<ul>").AppendJoin("", figures.Suggestions.Select(sentence => $"<li>{Escape(sentence)}</li>")).Append("</ul>\n</section>\n");
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

    private static void AppendAlarms(StringBuilder page, SessionFigures figures) => HtmlTable.Append(
        page,
        new ReportTable(
            "Alarms",
            ["Alarm", "Priority", "Entered", "Acknowledged", "Ended"],
            [.. figures.Alarms.Select(row => (string[])[$"{OneLine.Of(row.Alarm)}\n{row.Text}", row.Priority, row.Entered, row.Acknowledged, row.Ended])]),
        "No alarm entered.");

    private static void AppendGaps(StringBuilder page, SessionFigures figures)
    {
        HtmlTable.Append(
            page,
            new ReportTable(
                "Time without readings",
                ["Probe", "What", "From", "To", "Length", "Reason"],
                [.. figures.Gaps.Select(row => (string[])[row.Probe, row.What, row.From, row.To, row.Length, row.Reason])]),
            "Every probe read all the time.");
        if (figures.ShortGaps > 0)
            page.Append($"<p>{ReportText.ShortGaps(figures.ShortGaps)}</p>\n");
    }

    private static string Escape(string text) => WebUtility.HtmlEncode(OneLine.Of(text));
}
