using System.Text;
using VatWatch.Charts.Fonts;

namespace VatWatch.Charts.Reports.Html;

/// <summary>The shell of a report as one HTML file that needs nothing else. What it is given is escaped already.</summary>
internal static class HtmlPage
{
    /// <summary>Begins a page with its style, its heading and the lines below it.</summary>
    public static void Begin(StringBuilder page, string title, string heading, string below) => page
        .Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .Append($"<title>{title}</title>\n")
        .Append($"<style>{ChartFont.FontFaceCss}\n{ReportStyle.Sheet}</style>\n</head>\n<body>\n<main>\n")
        .Append($"<header>\n<h1>{heading}</h1>\n<p>{below}</p>\n</header>\n");

    /// <summary>The picture in two sizes, of which a page shows the one that fits.</summary>
    public static void Figures(StringBuilder page, string wide, string narrow) => page
        .Append("<figure class=\"wide\">").Append(wide).Append("</figure>\n")
        .Append("<figure class=\"narrow\">").Append(narrow).Append("</figure>\n");

    public static string End(StringBuilder page, string foot) => page.Append($"<footer>{foot}</footer>\n</main>\n</body>\n</html>\n").ToString();
}
