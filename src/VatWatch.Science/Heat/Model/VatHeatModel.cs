namespace VatWatch.Science.Heat.Model;

/// <summary>
/// The heat balance C dT/dt = P - UA (T - Ta) - A m'' h of one mixed mass, stepped explicitly. Loss areas and heat capacity follow the level; at 100 °C the
/// surplus boils liquor off, lid or none. Ice and a dry vat are not modelled: it stops at 0 °C and at the last kilogram.
/// </summary>
public sealed class VatHeatModel
{
    // The vat's time constant is hours: steps of 10 s err by less than 0.001 K.
    private const double LongestStepS = 10;

    private const double BoilingC = 100;
    private const double LeastWaterKg = 1;

    private readonly double diameterM;
    private readonly VatInsulation insulation;
    private readonly double shellJPerK;

    /// <param name="diameterM">Inner diameter, m.</param>
    /// <param name="insulation">Heat transfer coefficients.</param>
    /// <param name="shellJPerK">Heat capacity of vat and gear, J/K (<see cref="VatHeatCapacity.ShellJPerK"/>).</param>
    public VatHeatModel(double diameterM, VatInsulation insulation, double shellJPerK)
    {
        this.diameterM = Wanted.Positive(diameterM, "m");
        this.insulation = insulation;
        this.shellJPerK = Wanted.NotNegative(shellJPerK, "J/K");
    }

    /// <summary>Shape of the liquor in a state; its depth is the level.</summary>
    public VatGeometry Geometry(VatHeatState state) => VatGeometry.OfVolume(diameterM, state.VolumeL);

    /// <summary>Heat capacity in a state, J/K.</summary>
    public double CapacityJPerK(VatHeatState state) => VatHeatCapacity.WaterJPerK(state.WaterKg, state.TemperatureC) + shellJPerK;

    /// <summary>The state <paramref name="seconds"/> later, the inputs being constant.</summary>
    public VatHeatState Step(VatHeatState state, VatHeatInputs inputs, double seconds)
    {
        Wanted.NotNegative(seconds, "s");
        Wanted.NotNegative(inputs.HeaterW, "W");
        Wanted.Within(state.TemperatureC, 0, BoilingC, "°C");
        Wanted.Positive(state.WaterKg, "kg");
        var steps = Math.Ceiling(seconds / LongestStepS);
        for (var i = 0.0; i < steps; i++)
            state = ShortStep(state, inputs, seconds / steps);
        return state;
    }

    /// <summary>The state after wet yarn or another body has come to balance with the liquor; water it carries stays with the body.</summary>
    public VatHeatState AddBody(VatHeatState state, double bodyJPerK, double bodyC) =>
        state with { TemperatureC = Mixing.TemperatureC(CapacityJPerK(state), state.TemperatureC, bodyJPerK, bodyC) };

    /// <summary>The state after a top-up with water.</summary>
    public VatHeatState AddWater(VatHeatState state, double kg, double waterC) =>
        AddBody(state, VatHeatCapacity.WaterJPerK(kg, waterC), waterC) with { WaterKg = state.WaterKg + kg };

    private VatHeatState ShortStep(VatHeatState state, VatHeatInputs inputs, double seconds)
    {
        var geometry = Geometry(state);
        var t = state.TemperatureC;
        var vapourKgPerS = geometry.SurfaceM2 * EffectiveLoss.VapourShare(inputs.Lid)
            * Evaporation.ShahKgPerM2H(t, inputs.AmbientC, inputs.RelativeHumidity) / 3600;
        var latentJPerKg = 1000 * WaterHeat.LatentHeatKjPerKg(t);
        var surplusW = inputs.HeaterW - insulation.LossWPerK(geometry, inputs.Lid) * (t - inputs.AmbientC) - vapourKgPerS * latentJPerKg;
        var capacity = CapacityJPerK(state);
        var nextC = t + surplusW * seconds / capacity;
        var vapourKg = vapourKgPerS * seconds;
        if (nextC > BoilingC)
        {
            vapourKg += (nextC - BoilingC) * capacity / latentJPerKg;
            nextC = BoilingC;
        }

        return new(Math.Max(0, nextC), Math.Max(Math.Min(state.WaterKg, LeastWaterKg), state.WaterKg - vapourKg));
    }
}

/// <summary>What acts on the vat during a step.</summary>
/// <param name="HeaterW">Power into the liquor, W; 0 or more.</param>
/// <param name="AmbientC">Room, 0 to 60 °C.</param>
/// <param name="RelativeHumidity">0 to 1.</param>
/// <param name="Lid">Cover.</param>
public readonly record struct VatHeatInputs(double HeaterW, double AmbientC, double RelativeHumidity, Lid Lid);

/// <summary>State of a simulated vat: one mixed mass of liquor.</summary>
/// <param name="TemperatureC">0 to 100 °C.</param>
/// <param name="WaterKg">Mass of the liquor counted as water; evaporation takes from it.</param>
public readonly record struct VatHeatState(double TemperatureC, double WaterKg)
{
    public double VolumeL => 1000 * WaterKg / WaterDensity.KgPerM3(TemperatureC);

    public static VatHeatState OfVolume(double temperatureC, double volumeL) =>
        new(temperatureC, Wanted.Positive(volumeL, "L") * WaterDensity.KgPerM3(Wanted.Within(temperatureC, 0, 100, "°C")) / 1000);
}

/// <summary>Cold yarn, a top-up, or any other thing put into the vat.</summary>
public static class Mixing
{
    /// <summary>Temperature after the two have come to balance, °C.</summary>
    /// <param name="capacityJPerK">Heat capacity of the vat, above 0.</param>
    /// <param name="temperatureC">Of the vat.</param>
    /// <param name="addedJPerK">Heat capacity of what is added, 0 or more.</param>
    /// <param name="addedC">Its temperature.</param>
    public static double TemperatureC(double capacityJPerK, double temperatureC, double addedJPerK, double addedC)
    {
        var share = Wanted.NotNegative(addedJPerK, "J/K") / (Wanted.Positive(capacityJPerK, "J/K") + addedJPerK);
        return Wanted.Finite(temperatureC, "°C") + share * (Wanted.Finite(addedC, "°C") - temperatureC);
    }
}
