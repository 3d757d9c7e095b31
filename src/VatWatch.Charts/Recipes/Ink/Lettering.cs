using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Fonts;
using VatWatch.Charts.Recipes.Frame;

namespace VatWatch.Charts.Recipes.Ink;

/// <summary>
/// Writes text on a canvas in the chart's own font, which holds Latin, Greek, Cyrillic and more, but no Chinese, Japanese or Korean: what it
/// does not hold is an empty box (the drawing library's build without fontconfig cannot ask the machine for another face, tried). Not thread
/// safe; one per picture.
/// </summary>
internal sealed class Lettering(SKCanvas canvas) : IDisposable
{
    private readonly SKPaint _paint = new() { IsAntialias = true };

    /// <summary>Lettering for a picture of this size, whose canvas is turned to blank paper first.</summary>
    public static Lettering OnPaper(SKCanvas canvas, ChartSize size)
    {
        using var paper = new SKPaint { Color = Inks.Paper.ToSKColor() };
        canvas.DrawRect(0, 0, size.Width, size.Height, paper);
        return new(canvas);
    }

    public SKCanvas Canvas => canvas;

    /// <summary>Writes one line with its baseline at <paramref name="y"/>; <paramref name="x"/> is its left, middle or right.</summary>
    public void Write(string text, float x, float y, float size, Color ink, bool bold = false, SKTextAlign align = SKTextAlign.Left)
    {
        if (text.Length == 0)
            return;
        using var font = Font(size, bold);
        _paint.Color = ink.ToSKColor();
        canvas.DrawText(OneLine.Of(text), x, y, align, font, _paint);
    }

    /// <summary>As <see cref="Write"/>, on a patch of paper so that lines behind do not run through the letters.</summary>
    public void WriteOnPaper(string text, float x, float y, float size, Color ink, SKTextAlign align = SKTextAlign.Left)
    {
        var width = Width(text, size);
        var left = align switch { SKTextAlign.Right => x - width, SKTextAlign.Center => x - width / 2, _ => x };
        _paint.Color = Inks.Paper.WithAlpha(.9).ToSKColor();
        canvas.DrawRect(left - 2, y - size * 0.88f, width + 4, size * 1.14f, _paint);
        Write(text, x, y, size, ink, false, align);
    }

    /// <summary>Width of a line, units.</summary>
    public static float Width(string text, float size, bool bold = false)
    {
        using var font = Font(size, bold);
        return font.MeasureText(text);
    }

    /// <summary>The text, or as much of it as fits <paramref name="width"/> with an ellipsis.</summary>
    public static string Fit(string text, float width, float size, bool bold = false)
    {
        if (Width(text, size, bold) <= width)
            return text;
        for (var length = text.Length - 1; length > 0; length--)
        {
            if (char.IsHighSurrogate(text[length - 1]))
                continue;
            var shorter = text[..length].TrimEnd() + "…";
            if (Width(shorter, size, bold) <= width)
                return shorter;
        }

        return "";
    }

    /// <summary>Breaks a sentence at spaces into lines that fit <paramref name="width"/>.</summary>
    public static IReadOnlyList<string> Wrap(string text, float width, float size)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && Width(longer, size) > width)
            {
                lines.Add(line);
                line = Fit(word, width, size);
            }
            else
                line = line.Length == 0 ? Fit(word, width, size) : longer;
        }

        if (line.Length > 0)
            lines.Add(line);
        return lines;
    }

    public void Dispose() => _paint.Dispose();

    private static SKFont Font(float size, bool bold) =>
        new(ChartFont.Face(bold), size) { Subpixel = true, Hinting = SKFontHinting.None, Edging = SKFontEdging.Antialias };
}
