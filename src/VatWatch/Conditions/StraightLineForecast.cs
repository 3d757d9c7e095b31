namespace VatWatch.Conditions;

/// <summary>
/// Time until a rising line reaches a level, from its slope and the slope's standard error. A heated vat rises a little slower as it
/// warms, so the straight line is early rather than late.
/// </summary>
public static class StraightLineForecast
{
    /// <summary>Half-width of a 90 % band in standard errors (normal distribution).</summary>
    private const double NinetyPercent = 1.645;

    /// <summary>Share of the time by which the line may be wrong even without noise: losses, stirring, mains voltage. Engineering choice, no source.</summary>
    private const double ModelShare = 0.05;

    /// <summary>Longer than this is not a forecast.</summary>
    private static readonly TimeSpan Horizon = TimeSpan.FromHours(24);

    /// <summary>Null when the line does not rise towards <paramref name="level"/>, or not within a day.</summary>
    public static Forecast? TimeTo(double level, Trend trend)
    {
        var rise = level - trend.Newest;
        if (rise <= 0 || trend.PerHour <= trend.StandardError || rise / trend.PerHour > Horizon.TotalHours)
        {
            return null;
        }

        var spread = NinetyPercent * trend.StandardError;
        var early = rise / (trend.PerHour + spread) * (1 - ModelShare);
        var late = trend.PerHour > spread ? rise / (trend.PerHour - spread) * (1 + ModelShare) : double.PositiveInfinity;
        return new Forecast(
            TimeSpan.FromHours(early),
            TimeSpan.FromHours(rise / trend.PerHour),
            late <= Horizon.TotalHours ? TimeSpan.FromHours(late) : null);
    }
}
