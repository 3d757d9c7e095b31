namespace VatWatch.Science.Heat.Forecast;

/// <summary>How the time to a temperature answers to what it was computed from: the partial derivatives of <see cref="HeatingTime"/>.</summary>
/// <param name="ByHeating">dt/db, s per K/s (b = P/C).</param>
/// <param name="ByLoss">dt/da, s per 1/s (a = UA/C).</param>
/// <param name="ByAmbient">dt/dTa, s/K.</param>
/// <param name="ByStart">dt/dT0, s/K.</param>
/// <param name="ByTarget">dt/dT1, s/K.</param>
public readonly record struct HeatingTimeSlopes(double ByHeating, double ByLoss, double ByAmbient, double ByStart, double ByTarget)
{
    /// <summary>
    /// The slopes for going from T0 to T1. They are written with products in place of the differences 1/r0 - 1/r1 so that they stay good without losses.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The target is not reached.</exception>
    public static HeatingTimeSlopes Of(double heatingKPerS, double lossPerS, double ambientC, double startC, double targetC)
    {
        var change = Wanted.Finite(targetC, "°C") - Wanted.Finite(startC, "°C");
        var atStart = heatingKPerS - lossPerS * (startC - ambientC);
        var atTarget = atStart - lossPerS * change;
        if (!HeatingTime.TrySeconds(atStart, lossPerS, change, out _) || atStart == 0)
            throw new ArgumentOutOfRangeException(
                nameof(targetC), targetC, $"targetC is {targetC} °C; wanted a temperature this vat reaches from {startC} °C.");
        var byHeating = -change / (atStart * atTarget);
        var shape = LosslessLimit.SensitivityQuotient(lossPerS * change / atStart);
        return new(
            byHeating,
            (startC - ambientC) * change / (atStart * atTarget) + change * change / (atStart * atStart) * shape,
            lossPerS * byHeating,
            -1 / atStart,
            1 / atTarget);
    }
}
