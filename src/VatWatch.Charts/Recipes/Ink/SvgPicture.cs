using System.Security;
using System.Text;
using System.Text.RegularExpressions;
using SkiaSharp;
using VatWatch.Charts.Fonts;
using VatWatch.Charts.Recipes.Frame;

namespace VatWatch.Charts.Recipes.Ink;

/// <summary>Records drawing as SVG, and completes what the drawing library writes: a view box, a title for screen readers, the font.</summary>
internal static partial class SvgPicture
{
    /// <summary>The drawing as SVG.</summary>
    /// <param name="title">What it shows, for those who cannot see it.</param>
    /// <param name="standsAlone">With the XML declaration and the font inside; without them it is to be placed in a page that has the font.</param>
    /// <param name="idPrefix">Goes before every id, so that two pictures can live in one page.</param>
    public static string Of(ChartSize size, Action<SKCanvas> draw, string title, bool standsAlone, string idPrefix = "")
    {
        using var stream = new MemoryStream();
        using (var canvas = SKSvgCanvas.Create(new SKRect(0, 0, size.Width, size.Height), stream))
            draw(canvas);
        var svg = Encoding.UTF8.GetString(stream.ToArray());
        var start = svg.IndexOf("<svg", StringComparison.Ordinal);
        var body = svg[(svg.IndexOf('>', start) + 1)..];
        body = Renumber(body, idPrefix);
        var picture = new StringBuilder();
        if (standsAlone)
            picture.Append("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
        picture.Append("<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" role=\"img\" ")
            .Append($"viewBox=\"0 0 {size.Width} {size.Height}\" width=\"{size.Width}\" height=\"{size.Height}\">\n")
            .Append($"<title>{SecurityElement.Escape(OneLine.Of(title))}</title>\n");
        if (standsAlone)
            picture.Append($"<style>{ChartFont.FontFaceCss}</style>\n");
        return picture.Append(body.AsSpan().TrimStart()).ToString();
    }

    /// <summary>The drawing library numbers its ids on through the life of the process; here each picture begins anew, so that the same picture is the same text.</summary>
    private static string Renumber(string body, string idPrefix)
    {
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (Match id in Id().Matches(body))
            names.TryAdd(id.Groups["id"].Value, $"{idPrefix}{id.Groups["kind"].Value}_{names.Count + 1}");
        return Use().Replace(body, use => names.TryGetValue(use.Groups["id"].Value, out var name) ? $"{use.Groups["before"].Value}{name}" : use.Value);
    }

    [GeneratedRegex("\\bid=\"(?<id>(?<kind>[a-z]+)_[0-9a-f]+)(?=\")")]
    private static partial Regex Id();

    [GeneratedRegex("(?<before>\\bid=\"|url\\(#|href=\"#)(?<id>[a-z]+_[0-9a-f]+)(?=[\")])")]
    private static partial Regex Use();
}
