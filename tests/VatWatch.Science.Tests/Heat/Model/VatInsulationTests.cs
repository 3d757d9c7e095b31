using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat.Model;

public class VatInsulationTests
{
    // A vat 0.50 m across with 0.637 m of liquor.
    private static readonly VatGeometry Geometry = VatGeometry.OfDepth(0.50, 0.637);

    [Fact]
    public void Areas_and_level_follow_from_the_diameter()
    {
        Assert.Equal(0.196, Geometry.SurfaceM2, 0.0005);
        Assert.Equal(1.001, Geometry.SideM2, 0.0005);
        Assert.Equal(0.637, VatGeometry.OfVolume(0.50, Geometry.VolumeL).DepthM, 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => VatGeometry.OfVolume(0.50, -40));
        Assert.Throws<ArgumentOutOfRangeException>(() => VatGeometry.OfVolume(double.NaN, 40));
    }

    // Loss coefficients of six cases, liquor 46 °C, room 20 °C: a separate program (Python) with handbook film coefficients.
    [Theory]
    [InlineData("bare, open", 11.1)]
    [InlineData("bare, lid", 10.2)]
    [InlineData("wrap, open", 4.7)]
    [InlineData("wrap, lid", 3.15)]
    [InlineData("foam 25", 1.6)]
    [InlineData("foam 50", 0.9)]
    public void Loss_coefficients_agree_with_an_independent_program(string name, double wattsPerK)
    {
        var (insulation, lid) = HeatCases.Of(name);
        Assert.Equal(wattsPerK, insulation.LossWPerK(Geometry, lid), 0.02 * wattsPerK);
    }

    // The same program; inputs still-air convection 1.42 or 1.32 (dT/L)^0.25 plus radiation, both handbook values from memory.
    public static TheoryData<string, WallBuildUp, double, double> Walls => new()
    {
        { "bare plastic at 46 °C", new(), 46, 8.5 },
        { "bare plastic at 30 °C", new(), 30, 7.6 },
        { "10 mm closed-cell foam", new() { InsulationResistance = 0.010 / 0.040 }, 46, 2.6 },
        { "bubble film, dull outside", new() { InsulationResistance = 0.18 }, 46, 3.2 },
        { "bubble film, reflective outside", new() { InsulationResistance = 0.18, Emissivity = 0.1 }, 46, 2.2 },
        { "25 mm foam", new() { InsulationResistance = 0.025 / 0.036 }, 46, 1.2 },
        { "50 mm foam", new() { InsulationResistance = 0.050 / 0.036 }, 46, 0.65 },
        { "plain lid", new() { InnerFilm = 15, FacesUp = true, LengthM = 0.5 }, 46, 5.4 },
        { "lid and reflective bubble", new() { InnerFilm = 15, FacesUp = true, LengthM = 0.5, InsulationResistance = 0.18, Emissivity = 0.1 }, 46, 1.9 },
        { "lid and 25 mm foam", new() { InnerFilm = 15, FacesUp = true, LengthM = 0.5, InsulationResistance = 0.025 / 0.036 }, 46, 1.1 },
        { "open surface", new() { PlasticResistance = 0, FacesUp = true, LengthM = 0.5, Emissivity = 0.96 }, 46, 9.8 },
    };

    [Theory]
    [MemberData(nameof(Walls))]
    public void Walls_build_up_to_the_documented_coefficients(string name, WallBuildUp wall, double liquorC, double u)
    {
        Assert.NotEmpty(name);
        Assert.Equal(u, wall.UValue(liquorC, 20), 0.05 * u);
    }

    // Case "bare, open": 450 W to hold 46 °C in 20 °C, of which 162 W evaporate; the same program.
    [Fact]
    public void Evaporation_adds_to_the_loss_of_an_open_vat()
    {
        var sensibleW = 26 * VatInsulation.Bare.LossWPerK(Geometry, Lid.Off);
        Assert.Equal(450, sensibleW + EffectiveLoss.EvaporationW(Geometry.SurfaceM2, 46, 20, 0.5, Lid.Off), 5.0);
        Assert.Equal(0, EffectiveLoss.EvaporationW(Geometry.SurfaceM2, 46, 20, 0.5, Lid.Tight));
    }
}
