using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Marks;

namespace VatWatch.Charts.Recipes.Panels;

/// <summary>Puts the names of bands and limits into one panel where they hide neither a trace nor each other.</summary>
internal sealed class PanelLabels(Lettering lettering, PixelRect data, float size, IReadOnlyList<TraceLine> traces)
{
    private const float Air = 6;
    private readonly List<SKRect> _taken = [];

    /// <summary>
    /// Writes a label on the first of its baselines, at the left, right or middle, where nothing is in the way; if there is no such place, on
    /// the first that is at least free of other labels. A label that fits nowhere is left out.
    /// </summary>
    public void Write(string text, Color ink, params ReadOnlySpan<float> baselines)
    {
        var fitted = Lettering.Fit(text, data.Width - 2 * Air, size);
        var places = Places(Lettering.Width(fitted, size), baselines);
        var place = places.FindIndex(place => !traces.Any(trace => trace.Covers(place)));
        place = place >= 0 ? place : 0;
        if (places.Count == 0)
            return;
        _taken.Add(places[place]);
        lettering.WriteOnPaper(fitted, places[place].Left, places[place].Bottom - size * 0.26f, size, ink);
    }

    private List<SKRect> Places(float width, ReadOnlySpan<float> baselines)
    {
        var places = new List<SKRect>();
        foreach (var baseline in baselines)
        {
            foreach (var left in (ReadOnlySpan<float>)[data.Left + Air, data.Right - Air - width, data.HorizontalCenter - width / 2])
            {
                var place = new SKRect(left, baseline - size * 0.88f, left + width, baseline + size * 0.26f);
                if (place.Top >= data.Top && place.Bottom <= data.Bottom && !_taken.Exists(other => other.IntersectsWithInclusive(place)))
                    places.Add(place);
            }
        }

        return places;
    }
}
