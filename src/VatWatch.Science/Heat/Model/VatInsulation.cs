namespace VatWatch.Science.Heat.Model;

/// <summary>
/// Heat transfer coefficients of a plastic vat's surfaces, W/(m²·K). The named ones are built up from films, radiation and conduction at 46 °C in a room of
/// 20 °C (<see cref="WallBuildUp"/>); the base is an estimate. Real wraps leak at seams, rim and spigot: see <see cref="LeakFactorRange"/>.
/// </summary>
/// <param name="SideU">Wetted side.</param>
/// <param name="CoveredTopU">Surface under its lid.</param>
/// <param name="BaseU">Base.</param>
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

    /// <summary>By how much a real wrap loses more than its layers: an estimate, until the log of the vat has shown its own loss.</summary>
    public static (double Low, double High) LeakFactorRange => (1.3, 2.0);

    /// <summary>Sensible loss coefficient UA, W/K; evaporation is extra.</summary>
    public double LossWPerK(VatGeometry geometry, Lid lid) =>
        Wanted.NotNegative(SideU, "W/(m²·K)") * geometry.SideM2
        + Wanted.NotNegative(lid == Lid.Off ? OpenTopU : CoveredTopU, "W/(m²·K)", nameof(CoveredTopU)) * geometry.SurfaceM2
        + Wanted.NotNegative(BaseU, "W/(m²·K)") * geometry.SurfaceM2;
}
