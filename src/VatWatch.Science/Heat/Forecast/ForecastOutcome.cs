namespace VatWatch.Science.Heat.Forecast;

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
