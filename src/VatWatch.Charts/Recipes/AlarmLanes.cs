using ScottPlot;
using SkiaSharp;
using VatWatch.Alarms;
using VatWatch.Charts.Figures;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Recipes;

/// <summary>
/// A lane per alarm: a bar from entering to return, filled until somebody acknowledged it and hollow from then on, with its name beside it.
/// </summary>
internal sealed class AlarmLanes
{
    /// <summary>Lanes at most; a night with more has a table to be read instead.</summary>
    public const int MostLanes = 8;

    // Share of the height of a chart that the lanes may take.
    private const float MostOfHeight = 0.14f;

    // More lines than this would be a fence in front of the readings.
    private const int MostEnteringLines = 12;

    private readonly ChartFrame _frame;
    private readonly IReadOnlyList<AlarmEpisode> _episodes;
    private readonly IReadOnlyList<IGrouping<(VatId, string), AlarmEpisode>> _lanes;
    private readonly int _left;

    /// <summary>Lanes for these episodes, in order of entering.</summary>
    public AlarmLanes(ChartFrame frame, IReadOnlyList<AlarmEpisode> episodes)
    {
        _frame = frame;
        _episodes = [.. episodes.Where(episode => episode.Entered.Utc <= frame.Window.To && !(End(episode) < frame.Window.From))];
        var lanes = _episodes.GroupBy(episode => (episode.Vat, episode.Alarm.Value)).ToArray();
        _lanes = [.. lanes.OrderByDescending(lane => lane.Max(episode => episode.Priority)).Take(Math.Clamp((int)(frame.Size.Height * MostOfHeight / LaneHeight), 2, MostLanes))
            .OrderBy(lane => lane.First().Entered.Utc)];
        _left = lanes.Length - _lanes.Count;
    }

    private static DateTimeOffset? End(AlarmEpisode episode) => (episode.Returned ?? episode.SetAside)?.Utc;

    private float Size => _frame.Size.TextSize;

    private float HeadingHeight => Size * 2.2f;

    private float LaneHeight => Size * 1.6f;

    /// <summary>Height of all lanes with their heading, units; 0 without alarms.</summary>
    public float Height => _lanes.Count == 0 ? 0 : HeadingHeight + _lanes.Count * LaneHeight;

    /// <summary>Fine dotted lines through the panels' data where alarms entered.</summary>
    public void DrawEnteringLines(SKCanvas canvas, IReadOnlyList<PixelRect> panels)
    {
        if (_episodes.Count > MostEnteringLines)
            return;
        using var effect = Patterns.Entering.GetPathEffect();
        using var paint = new SKPaint { IsStroke = true, StrokeWidth = 0.9f, Color = Inks.Madder.ToSKColor(), PathEffect = effect, IsAntialias = true };
        foreach (var episode in _episodes.Where(episode => episode.Entered.Utc >= _frame.Window.From))
        {
            var x = _frame.XOf(episode.Entered.Utc);
            using var path = new SKPath();
            foreach (var panel in panels)
            {
                path.MoveTo(x, panel.Top);
                path.LineTo(x, panel.Bottom);
            }

            canvas.DrawPath(path, paint);
        }
    }

    /// <summary>Draws heading and lanes from <paramref name="top"/> down.</summary>
    public KeyEntries Draw(Lettering lettering, float top)
    {
        if (_lanes.Count == 0)
            return KeyEntries.None;
        lettering.Write("Alarms", _frame.Left, top + Size * 1.6f, Size * 1.1f, Inks.Text, bold: true);
        if (_left > 0)
            lettering.Write($"and {_left} more, not drawn", _frame.Left + Size * 4.8f, top + Size * 1.6f, Size, Inks.Faint);
        var y = top + HeadingHeight;
        foreach (var lane in _lanes)
        {
            DrawLane([.. lane], lettering, y + LaneHeight / 2);
            y += LaneHeight;
        }

        return KeyEntries.Alarm;
    }

    private void DrawLane(IReadOnlyList<AlarmEpisode> lane, Lettering lettering, float middle)
    {
        var data = _frame.DataArea(PixelRect.Zero);
        var (first, last) = (data.Right, data.Left);
        foreach (var episode in lane)
        {
            var left = _frame.XOf(episode.Entered.Utc);
            var right = Math.Max(End(episode) is { } ended ? _frame.XOf(ended) : data.Right, left + 2);
            var seen = episode.Acknowledged is { } acknowledged ? Math.Clamp(_frame.XOf(acknowledged.Utc), left, right) : right;
            DrawBar(lettering.Canvas, episode.Priority == AlarmPriority.Critical ? Inks.Madder : Inks.Walnut, left, seen, right, middle, Size * 0.8f);
            (first, last) = (Math.Min(first, left), Math.Max(last, right));
        }

        DrawLabel(lane, lettering, middle + Size * 0.34f, first, last, data);
    }

    /// <summary>Draws one bar: filled from <paramref name="left"/> to <paramref name="seen"/>, hollow to <paramref name="right"/>.</summary>
    public static void DrawBar(SKCanvas canvas, Color ink, float left, float seen, float right, float middle, float height)
    {
        using var paint = new SKPaint { Color = ink.ToSKColor(), IsAntialias = true };
        canvas.DrawRect(left, middle - height / 2, seen - left, height, paint);
        paint.IsStroke = true;
        paint.StrokeWidth = 1.1f;
        canvas.DrawRect(left, middle - height / 2, right - left, height, paint);
    }

    // The name goes to whichever side of its bars has more room; with no room at all, on paper over the bars.
    private void DrawLabel(IReadOnlyList<AlarmEpisode> lane, Lettering lettering, float baseline, float first, float last, PixelRect data)
    {
        const float air = 6;
        var (before, after) = (first - _frame.Left - air, _frame.Right - last - air);
        var room = Math.Max(before, after);
        var text = Texts(lane).FirstOrDefault(text => Lettering.Width(text, Size) <= room);
        if (text is null)
            lettering.WriteOnPaper(Lettering.Fit(Texts(lane)[^1], data.Width - 2 * air, Size), data.Left + air, baseline, Size, Inks.Text);
        else if (before > after)
            lettering.WriteOnPaper(text, first - air, baseline, Size, Inks.Text, SKTextAlign.Right);
        else
            lettering.WriteOnPaper(text, last + air, baseline, Size, Inks.Text);
    }

    // From the fullest to the barest.
    private string[] Texts(IReadOnlyList<AlarmEpisode> lane)
    {
        var (name, window) = (lane[0].Alarm.Value, _frame.Window);
        if (lane.Count > 1)
            return [$"{name}, {lane.Count} times, first {window.Clock(lane[0].Entered.Utc)}", $"{name} × {lane.Count}", name];
        var episode = lane[0];
        var entered = episode.Entered.Utc < window.From ? "before" : window.Clock(episode.Entered.Utc);
        var seen = episode.Acknowledged is { } at
            ? $", acknowledged {window.Clock(at.Utc)}{(episode.AcknowledgedBy is { } by ? $" by {by}" : "")}"
            : ", not acknowledged";
        var ended = episode.Returned is { } returned ? $", over {window.Clock(returned.Utc)}"
            : episode.SetAside is { } aside ? $", set aside {window.Clock(aside.Utc)}" : ", still on";
        return [$"{name} {entered}{seen}{ended}", $"{name} {entered}{ended}", $"{name} {entered}", name];
    }
}
