namespace VatWatch.Nights.Physics;

/// <summary>A vat as built: what does not change in a night. SI units, temperatures in °C.</summary>
internal sealed record VatBody
{
    public required double Litres { get; init; }

    /// <summary>Depth of the liquor over the vat's width.</summary>
    public required double Slenderness { get; init; }

    public required int Layers { get; init; }

    /// <summary>Heat that the wall takes up beside the liquor's, as a share of it.</summary>
    public required double WallShare { get; init; }

    /// <summary>From the liquor into the wall, W/(m² K).</summary>
    public required double WallFilm { get; init; }

    /// <summary>From the wall to the room, W/(m² K): 0.7 well wrapped, 9 bare.</summary>
    public required double SideLoss { get; init; }

    public required double BaseLoss { get; init; }

    /// <summary>Through the lid when it is on, W/(m² K).</summary>
    public required double LidLoss { get; init; }

    /// <summary>Share of the open vat's evaporation that a lid lets out.</summary>
    public required double LidLeak { get; init; }

    /// <summary>Flower, film and freeboard slow the evaporation, a draught speeds it.</summary>
    public required double SurfaceFactor { get; init; }

    /// <summary>Mixing between layers that stand still, m²/s; still water has 1.4e-7.</summary>
    public required double Eddy { get; init; }

    /// <summary>Height of the element, share of the depth.</summary>
    public required double ElementHeight { get; init; }

    /// <summary>Share of the heat that the plume loses to the layers it passes; the rest rises as far as the plume is warmer than what lies there.</summary>
    public required double Entrained { get; init; }

    /// <summary>How much warmer the plume is than the liquor about the element, K.</summary>
    public required double PlumeExcess { get; init; }

    public required double Altitude { get; init; }

    public double Width => Math.Cbrt(4 * Litres * 1e-3 / (Math.PI * Slenderness));

    public double Depth => Width * Slenderness;

    public double Top => Math.PI * Width * Width / 4;

    public double Side => Math.PI * Width * Depth;

    public double Pressure => Water.Pressure(Altitude);

    public double BoilingPoint => Water.BoilingPoint(Pressure);

    /// <summary>Any vat of a studio: 20 to 400 L, wrapped or bare.</summary>
    public static VatBody Draw(Chance chance) => new()
    {
        Litres = Math.Round(chance.Spread(20, 400)),
        Slenderness = chance.Uniform(0.7, 1.7),
        Layers = chance.OneOf(4, 5, 6, 8),
        WallShare = chance.Uniform(0.005, 0.06),
        WallFilm = chance.Spread(120, 500),
        SideLoss = chance.Spread(0.7, 9),
        BaseLoss = chance.Spread(0.6, 3.5),
        LidLoss = chance.Spread(1.2, 6),
        LidLeak = chance.Uniform(0, 0.2),
        SurfaceFactor = chance.Uniform(0.6, 1.3),
        Eddy = chance.Spread(3e-7, 4e-5),
        ElementHeight = chance.Uniform(0.03, 0.28),
        Entrained = chance.Uniform(0.1, 0.8),
        PlumeExcess = chance.Spread(0.2, 3),
        Altitude = chance.Happens(0.3) ? chance.Uniform(300, 2200) : chance.Uniform(0, 300),
    };

    /// <summary>Heat the vat loses when all of it has stood at one warmth for long, W.</summary>
    public double Loss(double celsius, double room, bool lidOn)
    {
        var side = 1 / (1 / WallFilm + 1 / SideLoss);
        var surface = LayeredLiquor.SurfaceLoss(this, celsius, room, 0.5, lidOn);
        return (side * Side + BaseLoss * Top) * (celsius - room) + surface.Heat + surface.Vapour * Water.LatentHeat(celsius);
    }
}
