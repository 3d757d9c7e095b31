using System.Text.RegularExpressions;
using ScottPlot;

namespace VatWatch.Charts.Recipes.Ink;

/// <summary>
/// The inks of a chart for a dark screen. Each has its twin in <see cref="Inks"/>, and a picture is drawn with those; as SVG names its colours in
/// attributes of its own, it is recoloured there, text untouched.
/// </summary>
internal static partial class NightInks
{
    private static readonly Dictionary<string, string> Twins = new (Color Day, string Night)[]
    {
        (Inks.Paper, "#141929"),
        (Inks.Text, "#efeadd"),
        (Inks.Faint, "#b5b3b0"),
        (Inks.Indigo, "#a9bdff"),
        (Inks.Slate, "#9aa3b5"),
        (Inks.Woad, "#7fa3da"),
        (Inks.Madder, "#ff9d8f"),
        (Inks.Walnut, "#e0b878"),
        (Inks.Linen, "#26332c"),
        (Inks.Thread, "#2b3147"),
        (Inks.Ash, "#5b6178"),
    }.ToDictionary(pair => pair.Day.ToHex(), pair => pair.Night, StringComparer.OrdinalIgnoreCase);

    /// <summary>The same picture on dark ground.</summary>
    public static string Recolour(string svg) => Colour().Replace(svg, found =>
    {
        var day = found.Groups["colour"].Value;
        var night = Twins.GetValueOrDefault(day == "white" ? "#ffffff" : day);
        return night is null ? found.Value : $"{found.Groups["attribute"].Value}=\"{night}\"";
    });

    [GeneratedRegex("(?<attribute>fill|stroke|stop-color)=\"(?<colour>#[0-9A-Fa-f]{6}|white)\"")]
    private static partial Regex Colour();
}
