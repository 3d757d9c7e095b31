namespace VatWatch.Science.Heat.Model;

/// <summary>The liquor as an upright cylinder.</summary>
public readonly record struct VatGeometry
{
    private VatGeometry(double diameterM, double depthM)
    {
        DiameterM = Wanted.Positive(diameterM, "m");
        DepthM = Wanted.Positive(depthM, "m");
    }

    public double DiameterM { get; }

    /// <summary>Depth of the liquor, m.</summary>
    public double DepthM { get; }

    public double SurfaceM2 => Math.PI / 4 * DiameterM * DiameterM;

    public double SideM2 => Math.PI * DiameterM * DepthM;

    public double VolumeL => 1000 * SurfaceM2 * DepthM;

    public static VatGeometry OfDepth(double diameterM, double depthM) => new(diameterM, depthM);

    /// <summary>A vat of which only the volume is known, so many times as deep as it is wide.</summary>
    public static VatGeometry OfProportion(double volumeL, double depthToDiameter) => OfVolume(Math.Cbrt(4 * volumeL / 1000 / (Math.PI * depthToDiameter)), volumeL);

    public static VatGeometry OfVolume(double diameterM, double volumeL) =>
        new(diameterM, Wanted.Positive(volumeL, "L") / 1000 / (Math.PI / 4 * Wanted.Positive(diameterM, "m") * diameterM));
}
