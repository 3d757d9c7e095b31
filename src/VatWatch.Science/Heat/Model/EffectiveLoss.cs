namespace VatWatch.Science.Heat.Model;

/// <summary>Losses of a vat at its working point, evaporation counted.</summary>
public static class EffectiveLoss
{
    // Closer to the room than this the quotient of evaporation and difference means nothing.
    private const double LeastDifferenceK = 1;

    /// <summary>Share of the open evaporation that leaves past a lid; estimates.</summary>
    public static double VapourShare(Lid lid) => lid switch
    {
        Lid.Off => 1,
        Lid.Loose => 0.1,
        Lid.Tight => 0,
        _ => throw new ArgumentOutOfRangeException(nameof(lid), lid, $"lid is {lid}; wanted Off, Loose or Tight."),
    };

    /// <summary>Power carried off by evaporation, W.</summary>
    public static double EvaporationW(double surfaceM2, double liquorC, double ambientC, double relativeHumidity, Lid lid) =>
        Wanted.NotNegative(surfaceM2, "m²") * VapourShare(lid) * Evaporation.ShahKgPerM2H(liquorC, ambientC, relativeHumidity)
        * WaterHeat.LatentHeatKjPerKg(liquorC) / 3.6;

    /// <summary>Effective coefficient UA + evaporation / (T - Ta), W/K; good within ±5 K of the temperature it was taken at.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Liquor less than 1 K above the room.</exception>
    public static double WPerK(
        double sensibleWPerK, double surfaceM2, double liquorC, double ambientC, double relativeHumidity, Lid lid)
    {
        if (!(liquorC - ambientC >= LeastDifferenceK))
            throw new ArgumentOutOfRangeException(
                nameof(liquorC), liquorC, $"liquorC is {liquorC} °C in a room of {ambientC} °C; wanted at least {LeastDifferenceK} K above it.");
        return Wanted.NotNegative(sensibleWPerK, "W/K")
            + EvaporationW(surfaceM2, liquorC, ambientC, relativeHumidity, lid) / (liquorC - ambientC);
    }
}
