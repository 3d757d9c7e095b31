using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Recipes;

/// <summary>What people did to the vat, along the time axis: dips as bars, everything else as letters, and the key to the letters.</summary>
internal sealed class EntryLane(ChartFrame frame, VatRecord record)
{
    private readonly IReadOnlyList<Dip> _dips = [.. record.Dips.Where(dip => dip.In.Utc <= record.To && (dip.Out?.Utc ?? record.To) >= record.From)];
    private readonly IReadOnlyList<EntryMark> _marks = EntryMark.Of(record);

    private float Size => frame.Size.TextSize;

    private int KeyColumns => frame.Size.IsNarrow ? 1 : 2;

    private int MostKeyRows => frame.Size.IsNarrow ? 7 : 5;

    private int KeyRows => Math.Min(MostKeyRows, (_marks.Count + KeyColumns - 1) / KeyColumns);

    /// <summary>Height of the lane with heading, units; 0 without entries to show.</summary>
    public float Height => (_dips.Count, _marks.Count) switch
    {
        (0, 0) => 0,
        (0, _) or (_, 0) => Size * 2.9f,
        _ => Size * 4.2f,
    };

    /// <summary>Height of the key, units; 0 without letters.</summary>
    public float KeyHeight => _marks.Count == 0 ? 0 : Size * (0.9f + 1.35f * KeyRows);

    /// <summary>Draws the lane from <paramref name="top"/> down.</summary>
    public void Draw(Lettering lettering, float top)
    {
        if (Height == 0)
            return;
        lettering.Write((_dips.Count, _marks.Count) switch { (0, _) => "Additions and notes", (_, 0) => "Dips", _ => "Dips, additions and notes" },
            frame.Left, top + Size * 1.15f, Size * 1.1f, Inks.Text, bold: true);
        var y = top + Size * 1.5f;
        if (_marks.Count > 0)
        {
            DrawLetters(lettering, y + Size * 0.65f);
            y += Size * 1.3f;
        }

        if (_dips.Count > 0)
            DipBars.Draw(lettering, frame, record.Dips, y + Size * 0.6f, Size * 1.05f);
    }

    /// <summary>Shades the panels while yarn was in, and draws a fine line through them at every letter.</summary>
    public void DrawThrough(SKCanvas canvas, IReadOnlyList<PixelRect> panels)
    {
        DipBars.Shade(canvas, frame, record.Dips, panels);
        using var paint = new SKPaint { IsStroke = true, StrokeWidth = 0.7f, Color = Inks.Slate.ToSKColor(), IsAntialias = true };
        foreach (var x in _marks.Select(mark => frame.XOf(mark.Entry.At.Utc)))
        {
            foreach (var panel in panels)
                canvas.DrawLine(x, panel.Top, x, panel.Bottom, paint);
        }
    }

    /// <summary>Draws the key to the letters from <paramref name="top"/> down.</summary>
    public void DrawKey(Lettering lettering, float top)
    {
        var column = (frame.Right - frame.Left) / KeyColumns;
        var shown = _marks.Count > KeyRows * KeyColumns ? KeyRows * KeyColumns - 1 : _marks.Count;
        for (var i = 0; i <= shown && i < _marks.Count; i++)
        {
            var (x, y) = (frame.Left + i / KeyRows * column, top + Size * (1.5f + 1.35f * (i % KeyRows)));
            if (i == shown)
            {
                lettering.Write($"and {_marks.Count - shown} more", x, y, Size * 0.95f, Inks.Faint);
                return;
            }

            var (letter, entry) = _marks[i];
            lettering.Write(letter, x, y, Size * 0.95f, Inks.Text, bold: true);
            var words = $"{frame.Window.Clock(entry.At.Utc)} {entry.Line(record.Units, frame.Window.Zone)}";
            lettering.Write(Lettering.Fit(OneLine.Of(words), column - Size * 2.2f, Size * 0.95f), x + Size * 1.2f, y, Size * 0.95f, Inks.Faint);
        }
    }

    // Letters that would lie over one another move to the right, each with a stroke from its true place.
    private void DrawLetters(Lettering lettering, float middle)
    {
        using var paint = new SKPaint { IsStroke = true, StrokeWidth = 0.9f, Color = Inks.Slate.ToSKColor(), IsAntialias = true };
        var (half, free) = (Size * 0.58f, float.NegativeInfinity);
        foreach (var (letter, entry) in _marks)
        {
            var true_ = frame.XOf(entry.At.Utc);
            var x = Math.Max(true_, free + half);
            lettering.Canvas.DrawRect(x - half, middle - half, 2 * half, 2 * half, paint);
            lettering.Canvas.DrawLine(x, middle + half, true_, middle + half + Size * 0.3f, paint);
            lettering.Write(letter, x, middle + Size * 0.34f, Size * 0.95f, Inks.Text, bold: true, SKTextAlign.Center);
            free = x + half + 1.5f;
        }
    }
}

/// <summary>An entry that a chart marks with a letter.</summary>
/// <param name="Letter">A, B and so on.</param>
internal sealed record EntryMark(string Letter, SessionEntry Entry)
{
    private const int Letters = 26;

    /// <summary>The marks of a record: what was added or stirred, the lid and notes, in order of time; the first 26.</summary>
    public static IReadOnlyList<EntryMark> Of(VatRecord record) =>
    [
        .. record.Standing
            .Where(entry => entry.Kind is EntryKind.Added or EntryKind.Stirred or EntryKind.LidOff or EntryKind.LidOn or EntryKind.HeaterOn or EntryKind.HeaterOff or EntryKind.Note)
            .Where(entry => entry.At.Utc >= record.From && entry.At.Utc <= record.To)
            .OrderBy(entry => entry.At.Utc)
            .Take(Letters)
            .Select((entry, i) => new EntryMark(((char)('A' + i)).ToString(), entry)),
    ];
}
