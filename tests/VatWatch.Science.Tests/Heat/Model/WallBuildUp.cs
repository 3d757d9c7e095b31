namespace VatWatch.Science.Tests.Heat.Model;

/// <summary>
/// A vat's wall or surface from the liquor to the room, in series: film of liquor, plastic, insulation, and outside natural convection beside radiation.
/// Film coefficients, conductivity and bubble-film resistance are handbook values from memory; results carry ±10 %.
/// </summary>
public sealed record WallBuildUp
{
    private const double StefanBoltzmann = 5.670374419e-8;

    // The outer temperature settles in a few rounds, since convection goes with the fourth root.
    private const int Rounds = 60;

    /// <summary>Film inside, W/(m²·K): 500 under liquor, about 15 for the headspace below a lid.</summary>
    public double InnerFilm { get; init; } = 500;

    /// <summary>Thickness over conductivity of the plastic, m²·K/W: 4 mm of HDPE at 0.45 W/(m·K). 0 for an open surface.</summary>
    public double PlasticResistance { get; init; } = 0.004 / 0.45;

    /// <summary>Resistance of what is wrapped round, m²·K/W: thickness over conductivity of a foam (0.036 to 0.040), 0.18 for bubble film.</summary>
    public double InsulationResistance { get; init; }

    /// <summary>Emissivity outside: 0.9 for dull plastic, 0.1 for clean dry foil.</summary>
    public double Emissivity { get; init; } = 0.9;

    /// <summary>Height of a wall, or width of a surface facing up, m.</summary>
    public double LengthM { get; init; } = 0.6;

    /// <summary>True for a lid or open surface, false for a wall.</summary>
    public bool FacesUp { get; init; }

    /// <summary>Overall coefficient, W/(m²·K), with the liquor warmer than the room.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Liquor not warmer than the room, or a layer that cannot be.</exception>
    public double UValue(double liquorC, double roomC)
    {
        Wanted.Within(roomC, -40, 60, "°C");
        Wanted.Within(liquorC, roomC, 100, "°C");
        var inside = 1 / Wanted.Positive(InnerFilm, "W/(m²·K)") + Wanted.NotNegative(PlasticResistance, "m²·K/W")
            + Wanted.NotNegative(InsulationResistance, "m²·K/W");
        var outerC = liquorC;
        for (var i = 0; i < Rounds; i++)
        {
            var outer = OuterFilm(outerC, roomC);
            outerC = roomC + (liquorC - roomC) / (1 + inside * outer);
        }

        return 1 / (inside + 1 / OuterFilm(outerC, roomC));
    }

    private double OuterFilm(double outerC, double roomC)
    {
        var meanK = 0.5 * (outerC + roomC) + 273.15;
        var convection = (FacesUp ? 1.32 : 1.42) * Math.Pow(Math.Max(0, outerC - roomC) / Wanted.Positive(LengthM, "m"), 0.25);
        return convection + 4 * Wanted.Within(Emissivity, 0, 1, "") * StefanBoltzmann * meanK * meanK * meanK;
    }
}
