using SkiaSharp;
using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Reports.Pdf;

/// <summary>Draws a <see cref="ReportTable"/> on a printed page: columns as wide as they need, long cells on several lines.</summary>
internal static class PdfTable
{
    private const float Air = 8;

    /// <summary>Draws the table; rows for which <paramref name="height"/> has no room are counted instead.</summary>
    /// <returns>The height it took.</returns>
    public static float Draw(Lettering lettering, ReportTable table, float x, float y, float width, float height, float text)
    {
        var line = text * 1.32f;
        // Heading, heads, one row and the count of the rest.
        if (height < line * 5)
            return 0;
        var top = y;
        lettering.Write(table.Heading, x, y + line, text * 1.1f, Inks.Text, bold: true);
        y += line * 1.3f;
        var widths = Widths(table, width, text);
        y += DrawRow(lettering, [.. table.Columns], widths, x, y, text, line, Inks.Faint);
        var note = table.Note is { } words ? Lettering.Wrap(words, width, text * 0.9f) : [];
        var most = top + height - line * (1 + note.Count);
        for (var i = 0; i < table.Rows.Count; i++)
        {
            if (y + RowHeight(table.Rows[i], widths, text, line) > most)
            {
                lettering.Write($"and {table.Rows.Count - i} more", x, y + text * 1.1f, text, Inks.Faint);
                y += line;
                break;
            }

            Rule(lettering.Canvas, x, y, width);
            y += DrawRow(lettering, table.Rows[i], widths, x, y, text, line, Inks.Text);
        }

        foreach (var noted in note)
        {
            y += line;
            lettering.Write(noted, x, y, text * 0.9f, Inks.Faint);
        }

        return y - top;
    }

    private static void Rule(SKCanvas canvas, float x, float y, float width)
    {
        using var paint = new SKPaint { Color = Inks.Thread.ToSKColor(), StrokeWidth = 0.8f, IsStroke = true };
        canvas.DrawLine(x, y, x + width, y, paint);
    }

    private static float DrawRow(Lettering lettering, string[] cells, float[] widths, float x, float y, float text, float line, ScottPlot.Color ink)
    {
        for (var i = 0; i < cells.Length; i++)
        {
            var lines = Lines(cells[i], widths[i], text);
            for (var n = 0; n < lines.Count; n++)
                lettering.Write(lines[n], x, y + text * 1.15f + n * line, text, ink);
            x += widths[i];
        }

        return RowHeight(cells, widths, text, line);
    }

    private static float RowHeight(string[] cells, float[] widths, float text, float line) =>
        text * 0.35f + line * Math.Max(1, cells.Select((cell, i) => Lines(cell, widths[i], text).Count).Max());

    private static IReadOnlyList<string> Lines(string cell, float width, float text) => Lettering.Wrap(cell, width - Air, text);

    // What each column would like, at most half of the page; where that is too much together, wide columns give way.
    private static float[] Widths(ReportTable table, float width, float text)
    {
        var wanted = table.Columns
            .Select((head, i) => Math.Min(width / 2, table.Rows.Select(row => row[i]).Append(head).Max(cell => Lettering.Width(cell, text)) + Air)).ToArray();
        var over = wanted.Sum() - width;
        if (over <= 0)
            return wanted;
        var widest = wanted.Where(one => one > width / wanted.Length).ToArray();
        return [.. wanted.Select(one => one > width / wanted.Length ? one - over * one / widest.Sum() : one)];
    }
}
