namespace VatWatch.Conditions.Heating.Learning;

/// <summary>The rate with the heater on, from the balance and from the slope now, each weighed by its variance.</summary>
internal static class CombinedRate
{
    /// <summary>How wrong a slope may be for the whole at first, and the time in which that fades: until layers and walls follow it is that of the place where the probe hangs.</summary>
    private const double UnsettledShare = 0.6;
    private static readonly TimeSpan Unsettled = TimeSpan.FromMinutes(20);

    /// <summary>What a balance of one mass leaves out of a rate.</summary>
    private const double BalanceShare = 0.04;

    /// <summary>Where slope and balance differ by more, the balance does not hold just now.</summary>
    private const double DisagreeDeviations = 3;

    /// <summary>K/h, and its standard deviation.</summary>
    /// <param name="estimate">The balance.</param>
    /// <param name="liquorC">The liquor now, °C.</param>
    /// <param name="slope">The slope now, K/h, and its standard deviation.</param>
    /// <param name="since">How long the heater has been on, mixing over.</param>
    public static (double KPerHour, double Sigma) Of(HeatEstimate estimate, double liquorC, (double KPerHour, double Sigma) slope, TimeSpan since)
    {
        var (kPerHour, sigma) = estimate.Rate(liquorC, heaterOn: true);
        (kPerHour, sigma) = Combine((kPerHour, Root(sigma, BalanceShare * kPerHour)), slope);
        return (kPerHour, Root(sigma, UnsettledShare * Math.Exp(-Math.Max(0, since / Unsettled)) * kPerHour));
    }

    private static (double KPerHour, double Sigma) Combine((double KPerHour, double Sigma) balance, (double KPerHour, double Sigma) slope)
    {
        var (vb, vs) = (balance.Sigma * balance.Sigma, slope.Sigma * slope.Sigma);
        if (Math.Abs(balance.KPerHour - slope.KPerHour) > DisagreeDeviations * Math.Sqrt(vb + vs))
        {
            return slope;
        }

        return ((balance.KPerHour * vs + slope.KPerHour * vb) / (vb + vs), Math.Sqrt(vb * vs / (vb + vs)));
    }

    private static double Root(double one, double other) => Math.Sqrt(one * one + other * other);
}
