using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Conditions;

namespace VatWatch.Charts.Recipes.Marks;

/// <summary>
/// What a stretch of each state looks like: told by its pattern, so that a print in grey says the same. Plain strokes, cut to the area by hand: a
/// pattern fill would become a picture in SVG and PDF.
/// </summary>
internal static class StateTexture
{
    public static void Draw(SKCanvas canvas, SKRect area, VatState state)
    {
        if (Ground(state) is { } ground)
        {
            using var fill = new SKPaint { Color = ground.ToSKColor(), IsAntialias = true };
            canvas.DrawRect(area, fill);
        }

        using var path = new SKPath();
        Lines(path, area, state);
        if (path.IsEmpty)
            return;
        using var paint = new SKPaint { Color = Ink(state).ToSKColor(), StrokeWidth = 0.9f, IsStroke = true, IsAntialias = true };
        canvas.DrawPath(path, paint);
    }

    /// <summary>Whether a word on it must be light to be read.</summary>
    public static bool IsDark(VatState state) => state == VatState.TooHot;

    private static Color? Ground(VatState state) => state switch
    {
        VatState.Ready => Inks.Linen,
        VatState.TooHot => Inks.Madder,
        _ => null,
    };

    private static Color Ink(VatState state) => state switch
    {
        VatState.Oxidised => Inks.Madder,
        VatState.Weak => Inks.Walnut,
        VatState.Resting or VatState.AlkaliLow or VatState.AlkaliHigh => Inks.Slate,
        _ => Inks.Indigo,
    };

    private static void Lines(SKPath path, SKRect area, VatState state)
    {
        switch (state)
        {
            case VatState.Warming:
                Rising(path, area, 6);
                break;
            case VatState.TooCold:
                Falling(path, area, 6);
                break;
            case VatState.Resting:
                Level(path, area, 3);
                break;
            case VatState.Weak:
                Upright(path, area, 4);
                break;
            case VatState.Oxidised:
                Rising(path, area, 4);
                Falling(path, area, 4);
                break;
            case VatState.AlkaliLow:
                Dots(path, area, 6);
                break;
            case VatState.AlkaliHigh:
                Dots(path, area, 3.2f);
                break;
        }
    }

    // Lines x + y = k·spacing: neighbouring stretches share one grid.
    private static void Rising(SKPath path, SKRect area, float spacing)
    {
        for (var sum = MathF.Ceiling((area.Left + area.Top) / spacing) * spacing; sum < area.Right + area.Bottom; sum += spacing)
        {
            var (start, end) = (Math.Max(area.Left, sum - area.Bottom), Math.Min(area.Right, sum - area.Top));
            Add(path, start, sum - start, end, sum - end);
        }
    }

    // Lines x − y = k·spacing.
    private static void Falling(SKPath path, SKRect area, float spacing)
    {
        for (var difference = MathF.Ceiling((area.Left - area.Bottom) / spacing) * spacing; difference < area.Right - area.Top; difference += spacing)
        {
            var (start, end) = (Math.Max(area.Left, difference + area.Top), Math.Min(area.Right, difference + area.Bottom));
            Add(path, start, start - difference, end, end - difference);
        }
    }

    private static void Level(SKPath path, SKRect area, float spacing)
    {
        for (var y = area.Top + spacing / 2; y < area.Bottom; y += spacing)
            Add(path, area.Left, y, area.Right, y);
    }

    private static void Upright(SKPath path, SKRect area, float spacing)
    {
        for (var x = MathF.Ceiling(area.Left / spacing) * spacing; x < area.Right; x += spacing)
        {
            path.MoveTo(x, area.Top);
            path.LineTo(x, area.Bottom);
        }
    }

    private static void Dots(SKPath path, SKRect area, float spacing)
    {
        for (var y = area.Top + spacing / 2; y < area.Bottom; y += spacing)
        {
            for (var x = MathF.Ceiling(area.Left / spacing) * spacing; x < area.Right - 1; x += spacing)
                Add(path, x, y, x + 1, y);
        }
    }

    private static void Add(SKPath path, float x, float y, float toX, float toY)
    {
        if (toX <= x)
            return;
        path.MoveTo(x, y);
        path.LineTo(toX, toY);
    }
}
