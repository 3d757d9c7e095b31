namespace VatWatch.Science.Heat.Model;

/// <summary>Losses of a vat at its working point, evaporation counted.</summary>
public static class EffectiveLoss
{
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
}
