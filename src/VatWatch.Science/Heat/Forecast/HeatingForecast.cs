namespace VatWatch.Science.Heat.Forecast;

/// <summary>Time to a temperature with its 95 % band, seconds from now. Show the range, never the bare time.</summary>
/// <param name="Outcome">What the times mean.</param>
/// <param name="EarlySeconds">Early edge; null if even the favourable case does not get there. Alarms compare this one.</param>
/// <param name="ExpectedSeconds">Best estimate; null if not reached.</param>
/// <param name="LateSeconds">Late edge; null if it may never get there.</param>
/// <param name="SigmaSeconds">Standard deviation; null if not reached.</param>
/// <param name="Plateau">True where the target is near the final temperature and the band was found by evaluating its corners.</param>
public readonly record struct HeatingForecast(
    ForecastOutcome Outcome, double? EarlySeconds, double? ExpectedSeconds, double? LateSeconds, double? SigmaSeconds, bool Plateau);

/// <summary>How sure a forecast may be of itself.</summary>
public enum ForecastOutcome
{
    /// <summary>At the target, or past it in the direction of travel.</summary>
    Reached,

    /// <summary>It will get there between the early and the late edge.</summary>
    Expected,

    /// <summary>The best estimate gets there, the lower band of its final rate does not: show "not reachable", but heed the early edge.</summary>
    Uncertain,

    /// <summary>The best estimate does not get there; there may still be an early edge.</summary>
    NotReachable,
}
