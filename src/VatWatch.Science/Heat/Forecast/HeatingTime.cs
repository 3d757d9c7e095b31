namespace VatWatch.Science.Heat.Forecast;

/// <summary>
/// Time to a temperature, t = (1/a) ln(r0/r1), written so that it keeps its digits as a tends to 0:
/// t = (ΔT/r0) · (-ln(1-z)/z) with z = a ΔT/r0. Serves warming and cooling alike.
/// </summary>
public static class HeatingTime
{
    /// <summary>Seconds for a change of <paramref name="changeK"/>, given the rate now and the loss rate.</summary>
    /// <param name="rateKPerS">Rate of change at the start, r0; measured or computed.</param>
    /// <param name="lossPerS">a = UA/C, 0 or more.</param>
    /// <param name="changeK">Wanted less present temperature.</param>
    /// <param name="seconds">The time; 0 if there is nothing to change.</param>
    /// <returns>False if the rate has the wrong sign or dies away before the target.</returns>
    public static bool TrySeconds(double rateKPerS, double lossPerS, double changeK, out double seconds)
    {
        Wanted.Finite(rateKPerS, "K/s");
        Wanted.NotNegative(lossPerS, "1/s");
        Wanted.Finite(changeK, "K");
        seconds = 0;
        if (changeK == 0)
            return true;
        if (rateKPerS * changeK <= 0)
            return false;
        var z = lossPerS * changeK / rateKPerS;
        if (z >= 1)
            return false;
        seconds = changeK / rateKPerS * LosslessLimit.LogQuotient(z);
        return double.IsFinite(seconds);
    }
}
