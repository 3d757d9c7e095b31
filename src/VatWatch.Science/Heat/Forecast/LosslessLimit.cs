namespace VatWatch.Science.Heat.Forecast;

/// <summary>
/// The quotients of first-order heating that become 0/0 as the losses vanish, computed without losing digits there. The framework's own LogP1 and
/// ExpM1 round their argument first, so they do not help.
/// </summary>
internal static class LosslessLimit
{
    private const double SeriesBelow = 0.02;
    private const int SeriesTerms = 14;

    /// <summary>-ln(1-z)/z for z below 1; tends to 1. After Kahan: the rounding of 1-z cancels in the quotient.</summary>
    public static double LogQuotient(double z)
    {
        var u = 1 - z;
        return u == 1 ? 1 : Math.Log(u) / (u - 1);
    }

    /// <summary>(1-exp(-y))/y; tends to 1.</summary>
    public static double DecayQuotient(double y)
    {
        var u = Math.Exp(-y);
        if (u == 1)
            return 1;
        return u == 0 ? 1 / y : (u - 1) / Math.Log(u);
    }

    /// <summary>(z/(1-z) + ln(1-z))/z², the integral of u/(1-zu)² over u from 0 to 1; tends to ½.</summary>
    public static double SensitivityQuotient(double z)
    {
        if (Math.Abs(z) >= SeriesBelow)
            return (z / (1 - z) + Math.Log(1 - z)) / (z * z);
        var sum = 0.0;
        for (var k = SeriesTerms; k >= 0; k--)
            sum = sum * z + (k + 1.0) / (k + 2);
        return sum;
    }
}
