using ScottPlot;

namespace VatWatch.Charts.Recipes.Ink;

/// <summary>The line patterns of a chart: what a print in grey is told apart by.</summary>
internal static class Patterns
{
    public static readonly LinePattern Limit = new([9, 4], 0, "limit");

    /// <summary>The lesser threshold.</summary>
    public static readonly LinePattern Threshold = new([4, 3], 0, "threshold");

    /// <summary>Doubtful values.</summary>
    public static readonly LinePattern Doubtful = new([1.5f, 2.5f], 0, "doubtful");

    /// <summary>Where an alarm entered.</summary>
    public static readonly LinePattern Entering = new([1, 3], 0, "entering");

    private static readonly LinePattern[] Chief = [LinePattern.Solid, new([7, 2], 0, "second"), new([7, 2, 2, 2], 0, "third"), new([2, 2], 0, "fourth")];

    private static readonly LinePattern[] Lesser = [new([3, 2], 0, "lesser"), new([6, 2, 1, 2], 0, "second lesser")];

    /// <summary>So many chief traces can be told apart.</summary>
    public static int ChiefLines => Chief.Length;

    /// <summary>The line of the chief trace with this number, from 0.</summary>
    public static LineStyle ChiefLine(int number) => new(number == 0 ? 1.7f : 1.3f, Inks.Indigo, Chief[number % Chief.Length]) { Rounded = true };

    /// <summary>The line of an accompanying trace.</summary>
    public static LineStyle LesserLine(int number) => new(1, Inks.Slate, Lesser[number % Lesser.Length]);

    /// <summary>The line of doubtful values.</summary>
    public static LineStyle DoubtfulLine { get; } = new(1.6f, Inks.Woad, Doubtful);
}
