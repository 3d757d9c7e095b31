using ScottPlot;
using SkiaSharp;

namespace VatWatch.Charts.Fonts;

/// <summary>The one font of all pictures and reports, from this assembly's resources: no picture depends on what is installed. Thread safe.</summary>
internal static class ChartFont
{
    /// <summary>Family name, as SVG and style sheets name it.</summary>
    public const string Family = "DejaVu Sans Condensed";

    public static SKTypeface Regular { get; } = Load("DejaVuSansCondensed.ttf");

    public static SKTypeface Bold { get; } = Load("DejaVuSansCondensed-Bold.ttf");

    private static readonly Lazy<bool> Registered = new(AddResolver);

    private static readonly Lazy<string> Css = new(() =>
        FontFace("DejaVuSansCondensed-web.woff2", "normal") + FontFace("DejaVuSansCondensed-Bold-web.woff2", "bold"));

    public static SKTypeface Face(bool bold) => bold ? Bold : Regular;

    /// <summary>Makes the drawing library find the font by <see cref="Family"/>. May be called any number of times.</summary>
    public static void Register() => _ = Registered.Value;

    /// <summary>Style rules with the font inside, for pictures and pages that travel alone.</summary>
    public static string FontFaceCss => Css.Value;

    private static bool AddResolver()
    {
        ScottPlot.Fonts.FontResolvers.Insert(0, new Resolver());
        return true;
    }

    private static SKTypeface Load(string resource)
    {
        using var data = SKData.CreateCopy(Read(resource));
        return SKTypeface.FromData(data) ?? throw new InvalidOperationException($"font resource {resource} is not a font");
    }

    private static string FontFace(string resource, string weight) =>
        $"@font-face{{font-family:'{Family}';font-weight:{weight};src:url(data:font/woff2;base64,{Convert.ToBase64String(Read(resource))}) format('woff2')}}";

    private static byte[] Read(string resource)
    {
        using var stream = typeof(ChartFont).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"resource {resource} is not in the assembly");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    private sealed class Resolver : IFontResolver
    {
        public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
            fontName == Family ? Face(weight >= FontWeight.SemiBold) : null;

        public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => fontName == Family ? Face(bold) : null;
    }
}
