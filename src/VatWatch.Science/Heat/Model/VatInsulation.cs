namespace VatWatch.Science.Heat.Model;

/// <summary>
/// Heat transfer coefficients of a plastic vat's surfaces, W/(m²·K). The named ones are built up from films, radiation and conduction at 46 °C in a room of
/// 20 °C (a test builds them up again); the base is an estimate. Real wraps leak at
/// seams, rim and spigot: 1.3 to 2 times as much, an estimate too, until the log of the vat has shown its own loss.
/// </summary>
/// <param name="SideU">Wetted side.</param>
/// <param name="CoveredTopU">Surface under its lid.</param>
/// <param name="OpenTopU">Open surface, convection and radiation only; evaporation is extra.</param>
public sealed record VatInsulation(double SideU, double CoveredTopU, double BaseU, double OpenTopU = VatInsulation.OpenSurfaceU)
{
    public const double OpenSurfaceU = 9.8;

    /// <summary>Bare plastic on a concrete floor, plain plastic lid.</summary>
    public static VatInsulation Bare { get; } = new(8.5, 5.4, 3.0);

    /// <summary>Reflective bubble film round the side and on the lid, concrete floor.</summary>
    public static VatInsulation ReflectiveWrap { get; } = new(2.2, 1.9, 3.0);

    /// <summary>25 mm of foam all round.</summary>
    public static VatInsulation Foam25Mm { get; } = new(1.2, 1.1, 1.0);

    /// <summary>50 mm of foam all round.</summary>
    public static VatInsulation Foam50Mm { get; } = new(0.65, 0.65, 0.6);

    /// <summary>Sensible loss coefficient UA, W/K; evaporation is extra.</summary>
    public double LossWPerK(VatGeometry geometry, Lid lid) =>
        Wanted.NotNegative(SideU, "W/(m²·K)") * geometry.SideM2
        + Wanted.NotNegative(lid == Lid.Off ? OpenTopU : CoveredTopU, "W/(m²·K)", nameof(CoveredTopU)) * geometry.SurfaceM2
        + Wanted.NotNegative(BaseU, "W/(m²·K)") * geometry.SurfaceM2;
}

/// <summary>What covers the vat.</summary>
public enum Lid
{
    /// <summary>Open surface: all vapour leaves.</summary>
    Off,

    /// <summary>Lid laid on: a tenth of the open evaporation leaks out (estimate; 0 to 0.2).</summary>
    Loose,

    /// <summary>Tight lid or floating cover: no vapour leaves.</summary>
    Tight,
}

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
