using System.Net;
using System.Text;
using VatWatch.Charts.Recipes.Frame;

namespace VatWatch.Charts.Reports.Html;

/// <summary>Writes a <see cref="ReportTable"/> into a page; on a telephone each row becomes a block with the heads before its cells.</summary>
internal static class HtmlTable
{
    // A probe that flickers all night must not make a page of a hundred thousand lines; CSV holds every reading.
    private const int MostRows = 200;

    /// <summary>Appends the table as a section.</summary>
    /// <param name="table">The table. A line break in a cell sets what stands before it in bold.</param>
    /// <param name="none">Stands for a table without rows.</param>
    public static void Append(StringBuilder page, ReportTable table, string none = "")
    {
        page.Append($"<section>\n<h2>{Escape(table.Heading)}</h2>\n");
        if (table.Rows.Count == 0)
        {
            page.Append($"<p>{Escape(none)}</p>\n</section>\n");
            return;
        }

        page.Append("<table>\n<thead><tr>").AppendJoin("", table.Columns.Select(column => $"<th scope=\"col\">{Escape(column)}</th>")).Append("</tr></thead>\n<tbody>\n");
        foreach (var row in table.Rows.Take(MostRows))
            page.Append("<tr>").AppendJoin("", row.Select((cell, i) => $"<td data-label=\"{Escape(table.Columns[i])}\">{Cell(cell)}</td>")).Append("</tr>\n");
        page.Append("</tbody>\n</table>\n");
        if (table.Rows.Count > MostRows)
            page.Append($"<p>And {table.Rows.Count - MostRows} more.</p>\n");
        if (table.Note is { } note)
            page.Append($"<p class=\"note\">{Escape(note)}</p>\n");
        page.Append("</section>\n");
    }

    private static string Cell(string text) => text.IndexOf('\n', StringComparison.Ordinal) is > 0 and var end
        ? $"<b>{Escape(text[..end])}</b><br>{Escape(text[(end + 1)..])}"
        : Escape(text);

    private static string Escape(string text) => WebUtility.HtmlEncode(OneLine.Of(text));
}
