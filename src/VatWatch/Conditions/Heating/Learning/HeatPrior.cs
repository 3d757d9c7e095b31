using VatWatch.Science.Heat.Model;

namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// What may be said of a vat's heat before it has been watched. Only P/C and UA/C show in a temperature record, so the heat capacity is
/// fixed here from the filled volume; its error cancels in every forecast.
/// </summary>
internal sealed record HeatPrior
{
    /// <summary>Losses of a 125 L plastic vat run from 1 (foam all round) to 17 W/K (bare and open): heat-balance table of cases.</summary>
    private const double ReferenceLitres = 125;
    private const double ReferenceLossWPerK = 6;
    private const double ReferenceLossSigmaWPerK = 5;
    private const double GreatestReferenceLossWPerK = 40;

    /// <summary>Nameplate against power in the liquor: a supply at 110 V instead of 120 V gives 84 % (square law).</summary>
    internal const double NameplateShareSigma = 0.08;

    /// <summary>Immersion heaters for such vats, W per litre: 300 W in 20 L, 1500 W in 120 L, 3 kW in 400 L; engineering choice, no source.</summary>
    private const double UsualWattsPerLitre = 10;
    private const double UsualSigmaWattsPerLitre = 4.4;

    /// <summary>3 kW in 20 L: it boils within the hour, but there are such vats.</summary>
    private const double GreatestWattsPerLitre = 150;

    /// <summary>A heated workroom; engineering choice, no source.</summary>
    private const double UsualRoomC = 20;
    private const double UsualRoomSigmaK = 4;

    /// <summary>A drum of 125 L weighs about 6 kg.</summary>
    private const double LitresPerKgOfPlastic = 21;

    private HeatPrior(double volumeLitres, double? heaterWatts)
    {
        var size = Math.Pow(volumeLitres / ReferenceLitres, 2.0 / 3);
        CapacityJPerK = VatHeatCapacity.LiquorJPerK(volumeLitres, 20, 45) + VatHeatCapacity.ShellJPerK(volumeLitres / LitresPerKgOfPlastic);
        LossWPerK = ReferenceLossWPerK * size;
        LossSigmaWPerK = ReferenceLossSigmaWPerK * size;
        GreatestLossWPerK = GreatestReferenceLossWPerK * size;
        PowerW = heaterWatts ?? UsualWattsPerLitre * volumeLitres;
        PowerSigmaW = heaterWatts is { } plate ? NameplateShareSigma * plate : UsualSigmaWattsPerLitre * volumeLitres;
        GreatestPowerW = heaterWatts is { } rated ? Math.Max(16 * volumeLitres, 1.3 * rated) : GreatestWattsPerLitre * volumeLitres;
        OpenLidW = OpenLidPower(volumeLitres);
    }

    /// <summary>Heat capacity of liquor, vat and gear, J/K.</summary>
    public double CapacityJPerK { get; }

    /// <summary>Expected heater power and its standard deviation, W.</summary>
    public double PowerW { get; }

    public double PowerSigmaW { get; }

    /// <summary>A learned power is kept below this, W.</summary>
    public double GreatestPowerW { get; }

    /// <summary>Expected loss coefficient, evaporation counted, and its standard deviation, W/K.</summary>
    public double LossWPerK { get; }

    public double LossSigmaWPerK { get; }

    /// <summary>A learned loss is kept below this, W/K.</summary>
    public double GreatestLossWPerK { get; }

    /// <summary>Room where no probe tells it, °C, and its standard deviation, K.</summary>
    public double RoomC { get; } = UsualRoomC;

    public double RoomSigmaK { get; } = UsualRoomSigmaK;

    /// <summary>What taking the lid off costs at a liquor temperature in a room, W.</summary>
    public Func<double, double, double> OpenLidW { get; }

    /// <summary>W as K/h.</summary>
    public double KPerHour(double watts) => watts / CapacityJPerK * 3600;

    /// <summary>K/h as W.</summary>
    public double Watts(double kelvinPerHour) => kelvinPerHour * CapacityJPerK / 3600;

    public static HeatPrior Of(VatDefinition vat) => new(vat.VolumeLitres, vat.HeaterWatts);

    /// <summary>A drum a quarter deeper than wide, lid of plain plastic, room at half humidity.</summary>
    private static Func<double, double, double> OpenLidPower(double volumeLitres)
    {
        var surfaceM2 = VatGeometry.OfProportion(volumeLitres, 1.25).SurfaceM2;
        var bareW = (VatInsulation.OpenSurfaceU - VatInsulation.Bare.CoveredTopU) * surfaceM2;
        return (liquorC, roomC) => bareW * (liquorC - roomC)
            + EffectiveLoss.EvaporationW(surfaceM2, Math.Clamp(liquorC, 0, 99), Math.Clamp(roomC, 0, 60), 0.5, Lid.Off);
    }
}
