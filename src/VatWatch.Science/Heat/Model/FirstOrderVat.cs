using VatWatch.Science.Heat.Forecast;

namespace VatWatch.Science.Heat.Model;

/// <summary>
/// A mixed vat with constant power, room and loss coefficient: C dT/dt = P - UA (T - Ta). Take UA as the effective coefficient at the working point where
/// evaporation counts (<see cref="EffectiveLoss"/>); it then holds within ±5 K.
/// </summary>
public readonly record struct FirstOrderVat
{
    /// <param name="powerW">Power that ends up in the liquor, W; 0 or more.</param>
    /// <param name="lossWPerK">Loss coefficient, W/K; 0 or more.</param>
    /// <param name="capacityJPerK">Heat capacity, J/K; above 0.</param>
    /// <param name="ambientC">Room, °C.</param>
    public FirstOrderVat(double powerW, double lossWPerK, double capacityJPerK, double ambientC)
    {
        PowerW = Wanted.NotNegative(powerW, "W");
        LossWPerK = Wanted.NotNegative(lossWPerK, "W/K");
        CapacityJPerK = Wanted.Positive(capacityJPerK, "J/K");
        AmbientC = Wanted.Within(ambientC, -60, 100, "°C");
    }

    public double PowerW { get; }

    public double LossWPerK { get; }

    public double CapacityJPerK { get; }

    public double AmbientC { get; }

    /// <summary>Heating rate without loss, b = P/C, K/s.</summary>
    public double HeatingKPerS => PowerW / CapacityJPerK;

    /// <summary>Loss rate a = UA/C, 1/s: the inverse of the time constant.</summary>
    public double LossPerS => LossWPerK / CapacityJPerK;

    /// <summary>Where it ends, °C; infinite for a heated vat without losses, and not limited by boiling.</summary>
    public double FinalC => PowerW == 0 ? AmbientC : AmbientC + PowerW / LossWPerK;

    /// <summary>Power that holds a temperature, W.</summary>
    public double HoldingW(double temperatureC) => LossWPerK * (Wanted.Finite(temperatureC, "°C") - AmbientC);

    /// <summary>Rate of change at a temperature, K/s.</summary>
    public double RateKPerS(double temperatureC) => HeatingKPerS - LossPerS * (Wanted.Finite(temperatureC, "°C") - AmbientC);

    /// <summary>Temperature after a time, °C: warm-up, and cool-down where the power is 0. Keeps its digits as the losses vanish.</summary>
    public double TemperatureAfter(double startC, double seconds) =>
        startC + RateKPerS(startC) * Wanted.NotNegative(seconds, "s") * LosslessLimit.DecayQuotient(LossPerS * seconds);

    /// <summary>Seconds from one temperature to another; false if it never gets there or would have to go back.</summary>
    public bool TryTimeTo(double startC, double targetC, out double seconds) =>
        HeatingTime.TrySeconds(RateKPerS(startC), LossPerS, Wanted.Finite(targetC, "°C") - startC, out seconds);
}
