using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Marks;
using VatWatch.Charts.Traces;
using VatWatch.Conditions;

namespace VatWatch.Charts.Recipes;

/// <summary>
/// The state of the vat as a ribbon along the time axis: a pattern for each state, with its word on it where there is room; the patterns of the rest are
/// explained beside the heading.
/// </summary>
internal sealed class StateRibbon(ChartFrame frame, VatRecord record)
{
    private const float KeySample = 16;
    private readonly IReadOnlyList<StateRun> _runs = StateRuns.Of(record);

    private float Size => frame.Size.TextSize;

    /// <summary>Height with heading, units; 0 when no condition was worked out.</summary>
    public float Height => _runs.Count == 0 ? 0 : Size * 3.3f;

    /// <summary>Draws from <paramref name="top"/> down.</summary>
    public void Draw(Lettering lettering, float top)
    {
        if (_runs.Count == 0)
            return;
        var data = frame.DataArea(new PixelRect(0, frame.Size.Width, top + Size * 3.1f, top + Size * 1.6f));
        var said = new HashSet<VatState>();
        foreach (var run in _runs)
        {
            var left = frame.XOf(run.From);
            var area = new SKRect(left, data.Top, Math.Max(frame.XOf(run.To), left + 0.6f), data.Bottom);
            StateTexture.Draw(lettering.Canvas, area, run.State);
            if (WriteWord(lettering, area, run.State))
                said.Add(run.State);
        }

        DrawFrame(lettering.Canvas, data);
        DrawHeading(lettering, top + Size * 1.15f, [.. _runs.Select(run => run.State).Distinct().Where(state => !said.Contains(state))]);
    }

    private bool WriteWord(Lettering lettering, SKRect area, VatState state)
    {
        var word = state.Word();
        if (Lettering.Width(word, Size * 0.92f) + 8 > area.Width)
            return false;
        var baseline = area.MidY + Size * 0.32f;
        if (StateTexture.IsDark(state))
            lettering.Write(word, area.MidX, baseline, Size * 0.92f, Inks.Paper, bold: true, SKTextAlign.Center);
        else
            lettering.WriteOnPaper(word, area.MidX, baseline, Size * 0.92f, Inks.Text, SKTextAlign.Center);
        return true;
    }

    private static void DrawFrame(SKCanvas canvas, PixelRect data)
    {
        using var paint = new SKPaint { IsStroke = true, StrokeWidth = 0.8f, Color = Inks.Ash.ToSKColor(), IsAntialias = true };
        canvas.DrawRect(data.Left, data.Top, data.Width, data.Height, paint);
    }

    // States that found no room for their word are explained from the right; on a narrow chart as many as fit.
    private void DrawHeading(Lettering lettering, float baseline, IReadOnlyList<VatState> unsaid)
    {
        lettering.Write("State", frame.Left, baseline, Size * 1.1f, Inks.Text, bold: true);
        var x = frame.Right;
        foreach (var state in unsaid.Reverse())
        {
            var width = KeySample + 4 + Lettering.Width(state.Word(), Size * 0.95f);
            if (x - width < frame.Left + Size * 3.6f)
                return;
            var sample = new SKRect(x - width, baseline - Size * 0.75f, x - width + KeySample, baseline + Size * 0.1f);
            StateTexture.Draw(lettering.Canvas, sample, state);
            DrawFrame(lettering.Canvas, new PixelRect(sample.Left, sample.Right, sample.Bottom, sample.Top));
            lettering.Write(state.Word(), sample.Right + 4, baseline, Size * 0.95f, Inks.Faint);
            x -= width + Size;
        }
    }
}
