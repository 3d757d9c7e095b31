using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Marks;

namespace VatWatch.Charts.Recipes.Frame;

/// <summary>The foot of a chart: numbers and name of the time axis, and the key to those marks that occur.</summary>
internal static class ChartFoot
{
    private const float Sample = 22;

    public static float Height(ChartFrame frame, KeyEntries most) => frame.Size.TextSize * (4.2f + 1.5f * KeyRows(frame, most).Count);

    /// <summary>Draws from <paramref name="top"/> down, which is the lower edge of the last panel.</summary>
    public static void Draw(ChartFrame frame, Lettering lettering, float top, KeyEntries entries)
    {
        var size = frame.Size.TextSize;
        var data = frame.DataArea(PixelRect.Zero);
        foreach (var tick in frame.Ticks)
        {
            var x = data.Left + (float)(tick.Seconds / frame.Window.Seconds * data.Width);
            var lines = tick.Label.Split('\n');
            for (var i = 0; i < lines.Length; i++)
            {
                var half = Lettering.Width(lines[i], size * 0.92f) / 2;
                lettering.Write(lines[i], Math.Clamp(x, frame.Left + half, frame.Right - half), top + size * (1.3f + i * 1.15f), size * 0.92f, Inks.Text,
                    align: SKTextAlign.Center);
            }
        }

        var zone = Lettering.Fit(frame.Window.AxisText, data.Width, size);
        lettering.Write(zone, data.HorizontalCenter, top + size * 3.7f, size, Inks.Faint, align: SKTextAlign.Center);
        var y = top + size * 5.3f;
        foreach (var row in KeyRows(frame, entries))
        {
            var x = frame.Left;
            foreach (var (entry, text) in row)
            {
                DrawSample(lettering.Canvas, entry, x, y - size * 0.33f, size);
                lettering.Write(text, x + Sample + 5, y, size * 0.95f, Inks.Faint);
                x += EntryWidth(text, size);
            }

            y += size * 1.5f;
        }
    }

    private static float EntryWidth(string text, float size) => Sample + 5 + Lettering.Width(text, size * 0.95f) + size * 1.6f;

    private static List<List<(KeyEntries Entry, string Text)>> KeyRows(ChartFrame frame, KeyEntries entries)
    {
        var rows = new List<List<(KeyEntries, string)>>();
        var x = float.PositiveInfinity;
        foreach (var (entry, text) in Texts.Where(candidate => entries.HasFlag(candidate.Entry)))
        {
            var width = EntryWidth(text, frame.Size.TextSize);
            if (x + width > frame.Right + frame.Size.TextSize * 1.6f)
            {
                rows.Add([]);
                x = frame.Left;
            }

            rows[^1].Add((entry, text));
            x += width;
        }

        return rows;
    }

    private static readonly (KeyEntries Entry, string Text)[] Texts =
    [
        (KeyEntries.NoReadings, "no readings"),
        (KeyEntries.Fault, "probe fault"),
        (KeyEntries.Suspect, "doubtful reading"),
        (KeyEntries.Alarm, "alarm, hollow once acknowledged"),
    ];

    private static void DrawSample(SKCanvas canvas, KeyEntries entry, float x, float middle, float size)
    {
        switch (entry)
        {
            case KeyEntries.NoReadings:
                Hatching.Draw(canvas, new SKRect(x, middle - size * 0.42f, x + Sample, middle + size * 0.42f), Inks.Ash);
                break;
            case KeyEntries.Fault:
                FaultMarks.Draw(canvas, x + Sample / 2 - 5, middle, Inks.Madder);
                FaultMarks.Draw(canvas, x + Sample / 2 + 5, middle, Inks.Madder);
                break;
            case KeyEntries.Suspect:
                KeyLine.Draw(canvas, x, middle, Sample, Patterns.DoubtfulLine);
                break;
            default:
                AlarmLanes.DrawBar(canvas, Inks.Walnut, x, x + Sample / 2, x + Sample, middle, size * 0.7f);
                break;
        }
    }
}

/// <summary>Which marks a chart holds that need a word of explanation at its foot.</summary>
[Flags]
internal enum KeyEntries
{
    None = 0,

    /// <summary>Hatching.</summary>
    NoReadings = 1,

    /// <summary>Crosses.</summary>
    Fault = 2,

    /// <summary>Dotted stretches.</summary>
    Suspect = 4,

    Alarm = 8,
}
