namespace VatWatch.Daemon.Web.Vats.Figures;

/// <summary>The temperature on a line with the working band and the limit, in the units of a drawing 300 wide.</summary>
/// <param name="BandStart">Left edge of the band.</param>
/// <param name="Mark">Where the liquor is, kept inside the drawing; null when not known.</param>
/// <param name="Words">Band and limit in words.</param>
public sealed record ScaleView(string BandStart, string BandWidth, string Limit, string? Mark, string Words)
{
    private const double Width = 300;

    /// <summary>Room left and right for the mark, so that it stays whole at the ends.</summary>
    private const double Edge = 8;

    /// <summary>Lays the line out: the band and limit take its right half, where it matters.</summary>
    public static ScaleView Of(TemperatureBand band, double? temperatureC, DisplayUnits units)
    {
        var reach = band.LimitC - band.LowC;
        var from = band.LowC - 1.2 * reach;
        var to = band.LimitC + 0.5 * reach;
        double Place(double celsius) => Edge + Math.Clamp((celsius - from) / (to - from), 0, 1) * (Width - 2 * Edge);
        return new(
            Text(Place(band.LowC)),
            Text(Place(band.HighC) - Place(band.LowC)),
            Text(Place(band.LimitC)),
            temperatureC is { } celsius ? Text(Place(celsius)) : null,
            $"Working band {units.Temperature(band.LowC)} to {units.Temperature(band.HighC)}, limit {units.Temperature(band.LimitC)}.");
    }

    private static string Text(double place) => place.ToString("F1");
}
