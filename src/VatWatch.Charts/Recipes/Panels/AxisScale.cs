namespace VatWatch.Charts.Recipes.Panels;

/// <summary>A unit to label an axis in: shown = canonical × <paramref name="Factor"/> + <paramref name="Offset"/>.</summary>
internal sealed record AxisScale(string Unit, double Factor, double Offset)
{
    /// <summary>°C.</summary>
    public static AxisScale Celsius { get; } = new("°C", 1, 0);

    /// <summary>°F = 1.8 °C + 32, by definition.</summary>
    public static AxisScale Fahrenheit { get; } = new("°F", 1.8, 32);

    /// <summary>The canonical unit as it is.</summary>
    public static AxisScale Canonical(Quantity measures) => new(measures.Unit(), 1, 0);

    /// <summary>Round numbers of this unit within a canonical range, each with the canonical value that it stands for.</summary>
    public IReadOnlyList<(double Canonical, string Label)> Marks(double low, double high, int most) =>
        [.. RoundNumbers.Between(low * Factor + Offset, high * Factor + Offset, most)
            .Select(mark => ((mark.Value - Offset) / Factor, mark.Label))];
}
