namespace VatWatch.Charts.Recipes.Panels;

/// <summary>A unit to label an axis in: shown = canonical × <paramref name="Factor"/> + <paramref name="Offset"/>.</summary>
internal sealed record AxisScale(string Unit, double Factor, double Offset)
{
    /// <summary>°C.</summary>
    public static AxisScale Celsius { get; } = new("°C", 1, 0);

    /// <summary>°F = 1.8 °C + 32, by definition.</summary>
    public static AxisScale Fahrenheit { get; } = new("°F", 1.8, 32);

    public static AxisScale Canonical(Quantity measures) => new(measures.Unit(), 1, 0);

    /// <summary>Round numbers of this unit within a canonical range, each with the canonical value that it stands for.</summary>
    public IReadOnlyList<(double Canonical, string Label)> Marks(double low, double high, int most) =>
        [.. RoundNumbers.Between(low * Factor + Offset, high * Factor + Offset, most)
            .Select(mark => ((mark.Value - Offset) / Factor, mark.Label))];
}

/// <summary>Chooses round numbers for a value axis: steps of 1, 2 or 5 times a power of ten.</summary>
internal static class RoundNumbers
{
    /// <summary>The round numbers from <paramref name="low"/> to <paramref name="high"/>, at most <paramref name="most"/> (2 or more), with their labels.</summary>
    public static IReadOnlyList<(double Value, string Label)> Between(double low, double high, int most)
    {
        var step = Step((high - low) / (most + 1));
        while (Math.Floor(high / step + 1e-9) - Math.Ceiling(low / step - 1e-9) + 1 > most)
            step = Step(step * 1.5);
        var decimals = Math.Max(0, (int)-Math.Floor(Math.Log10(step) + 1e-9));
        var numbers = new List<(double, string)>();
        for (var n = Math.Ceiling(low / step - 1e-9); n * step <= high + step * 1e-9; n++)
            numbers.Add((n * step, (n * step + 0.0).ToString("F" + decimals).Replace("-", "−", StringComparison.Ordinal)));
        return numbers;
    }

    private static double Step(double atLeast)
    {
        if (atLeast is not > 0)
            return 1;
        var power = Math.Pow(10, Math.Floor(Math.Log10(atLeast)));
        foreach (var factor in (ReadOnlySpan<double>)[1, 2, 5])
        {
            if (factor * power >= atLeast * (1 - 1e-9))
                return factor * power;
        }

        return 10 * power;
    }
}
