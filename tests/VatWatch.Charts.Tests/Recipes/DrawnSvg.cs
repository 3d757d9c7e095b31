using System.Globalization;
using System.Xml.Linq;
using ScottPlot;

namespace VatWatch.Charts.Tests.Recipes;

/// <summary>Reads back what a picture shows: an SVG is parsed as XML, so a picture that is not well-formed fails here.</summary>
internal sealed class DrawnSvg(string svg)
{
    private static readonly XNamespace Ns = "http://www.w3.org/2000/svg";
    private readonly XDocument _document = XDocument.Parse(svg);

    /// <summary>All lines of text, as a reader sees them.</summary>
    public IReadOnlyList<string> Texts => [.. _document.Descendants(Ns + "text").Select(text => text.Value.Trim())];

    /// <summary>The title for screen readers.</summary>
    public string Title => _document.Root!.Element(Ns + "title")!.Value;

    /// <summary>Style rules.</summary>
    public string Style => string.Concat(_document.Descendants(Ns + "style").Select(style => style.Value));

    /// <summary>Names of all elements.</summary>
    public IReadOnlySet<string> Elements => _document.Descendants().Select(element => element.Name.LocalName).ToHashSet();

    /// <summary>The stroked lines of this colour and width, each as its unbroken pieces of points.</summary>
    public IReadOnlyList<IReadOnlyList<(float X, float Y)[]>> Lines(Color ink, float width) =>
    [
        .. _document.Descendants(Ns + "path")
            .Where(path => Is(path, "stroke", ink) && Attribute(path, "stroke-width") == width)
            .Select(path => Pieces(path.Attribute("d")!.Value)),
    ];

    /// <summary>Filled shapes of this colour: dashed lines too, which are written as the outlines of their dashes.</summary>
    public IReadOnlyList<IReadOnlyList<(float X, float Y)[]>> Shapes(Color ink) =>
        [.. _document.Descendants(Ns + "path").Where(path => Is(path, "fill", ink)).Select(path => Pieces(path.Attribute("d")!.Value))];

    /// <summary>How many round dots of this colour there are, each a circle or a path of curves alone.</summary>
    public int Dots(Color ink) =>
        _document.Descendants(Ns + "ellipse").Concat(_document.Descendants(Ns + "circle")).Count(dot => Is(dot, "fill", ink))
        + _document.Descendants(Ns + "path").Count(path => Is(path, "fill", ink) && path.Attribute("d")!.Value is var d && !d.Contains('L', StringComparison.Ordinal));

    /// <summary>Filled rectangles of this colour that are not see-through.</summary>
    public IReadOnlyList<(float X, float Y, float Width, float Height)> Rectangles(Color ink) =>
    [
        .. _document.Descendants(Ns + "rect")
            .Where(rectangle => Is(rectangle, "fill", ink) && rectangle.Attribute("fill-opacity") is null)
            .Select(rectangle => (Attribute(rectangle, "x") ?? 0, Attribute(rectangle, "y") ?? 0, Attribute(rectangle, "width")!.Value, Attribute(rectangle, "height")!.Value)),
    ];

    private static bool Is(XElement path, string attribute, Color ink) =>
        string.Equals(path.Attribute(attribute)?.Value, ink.ToHex()[..7], StringComparison.OrdinalIgnoreCase);

    private static float? Attribute(XElement path, string name) =>
        path.Attribute(name) is { } attribute ? float.Parse(attribute.Value, CultureInfo.InvariantCulture) : null;

    private static (float X, float Y)[][] Pieces(string d) =>
        [.. d.Split('M', StringSplitOptions.RemoveEmptyEntries).Select(piece => piece.Split('L', 'Z', 'Q', 'C').Select(Point).OfType<(float, float)>().ToArray())];

    private static (float, float)? Point(string text)
    {
        var numbers = text.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries);
        return numbers.Length < 2 ? null : (float.Parse(numbers[^2], CultureInfo.InvariantCulture), float.Parse(numbers[^1], CultureInfo.InvariantCulture));
    }
}
