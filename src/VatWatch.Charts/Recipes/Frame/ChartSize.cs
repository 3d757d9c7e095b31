namespace VatWatch.Charts.Recipes.Frame;

/// <summary>For what a chart is drawn. Lengths are in units of 1/96 inch, as in style sheets.</summary>
/// <param name="Width">Width of the picture, units.</param>
/// <param name="Height">Height, units.</param>
/// <param name="PixelsPerUnit">Pixels of a PNG for one unit.</param>
/// <param name="TextSize">Height of the body text, units.</param>
public sealed record ChartSize(int Width, int Height, int PixelsPerUnit, float TextSize)
{
    /// <summary>One upright page of A4 or Letter: fits between the margins of both.</summary>
    public static ChartSize Page { get; } = new(720, 960, 2, 11);

    /// <summary>A telephone held upright.</summary>
    public static ChartSize Phone { get; } = new(390, 800, 3, 12.4f);

    public int PixelWidth => Width * PixelsPerUnit;

    public int PixelHeight => Height * PixelsPerUnit;

    /// <summary>Too narrow for second units in words, for times beside alarms and the like.</summary>
    internal bool IsNarrow => Width < 560;
}
