using ScottPlot;

namespace VatWatch.Charts.Recipes.Ink;

/// <summary>
/// The colours of a chart, named for the dyestuffs they remind of. They differ in lightness, and nothing is told by colour alone:
/// a print in grey shows the same by line pattern, hatching and words.
/// </summary>
internal static class Inks
{
    public static readonly Color Paper = Color.FromHex("#ffffff");

    public static readonly Color Text = Color.FromHex("#22252e");

    /// <summary>Lesser text.</summary>
    public static readonly Color Faint = Color.FromHex("#5d6270");

    /// <summary>What the probes read.</summary>
    public static readonly Color Indigo = Color.FromHex("#1f3566");

    /// <summary>The room's temperature and further probes.</summary>
    public static readonly Color Slate = Color.FromHex("#66707f");

    /// <summary>Doubtful values.</summary>
    public static readonly Color Woad = Color.FromHex("#4d74a8");

    /// <summary>Limits, faults and alarms.</summary>
    public static readonly Color Madder = Color.FromHex("#a03a2c");

    /// <summary>The lesser threshold.</summary>
    public static readonly Color Walnut = Color.FromHex("#6b4a1f");

    /// <summary>The wanted band.</summary>
    public static readonly Color Linen = Color.FromHex("#e6ead8");

    /// <summary>Grid lines and frames.</summary>
    public static readonly Color Thread = Color.FromHex("#dcdcd6");

    /// <summary>Hatching over time without readings.</summary>
    public static readonly Color Ash = Color.FromHex("#b3aea2");
}
