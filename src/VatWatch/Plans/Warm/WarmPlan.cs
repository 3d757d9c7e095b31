namespace VatWatch.Plans.Warm;

/// <summary>When to heat a vat so that it is warm at a moment. Times are UTC; bands hold about 90 %. Immutable.</summary>
public sealed record WarmPlan
{
    public required WarmWish Wish { get; init; }

    /// <summary>When to switch the heater on.</summary>
    public required DateTimeOffset SwitchOn { get; init; }

    /// <summary>By how much that is earlier than the best estimate wants, because the warm-up may well take longer; zero where it is sure enough.</summary>
    public TimeSpan Ahead { get; init; }

    /// <summary>Where the liquor will have cooled to by then, °C.</summary>
    public required double SwitchOnC { get; init; }

    /// <summary>When the liquor is warm, by the best estimate: a heater without a thermostat is then switched off.</summary>
    public required DateTimeOffset SwitchOff { get; init; }

    /// <summary>What to set a thermostat to, °C; null for a heater that was never seen to have one.</summary>
    public double? SetToC { get; init; }

    /// <summary>Earliest that the liquor is warm when switched on at <see cref="SwitchOn"/>.</summary>
    public required DateTimeOffset ReadyEarly { get; init; }

    /// <summary>Latest of the same; null when it may never be.</summary>
    public DateTimeOffset? ReadyLate { get; init; }

    /// <summary>The earliest the vat could be warm by the best estimate: switched on at once.</summary>
    public required DateTimeOffset Earliest { get; init; }

    /// <summary>The latest switching on with which even the slowest plausible warm-up is over in time; null when that moment has gone by.</summary>
    public DateTimeOffset? LatestSafe { get; init; }

    /// <summary>How long the warm-up takes with the lid off, where it is off now; null where it is on, and where an open vat never gets there.</summary>
    public TimeSpan? WithoutLid { get; init; }

    /// <summary>When a heater left on would have brought the liquor to its limit at the earliest; null when it never does.</summary>
    public DateTimeOffset? LimitEarly { get; init; }

    /// <summary>Energy of the warm-up, kWh.</summary>
    public required double KilowattHours { get; init; }

    /// <summary>The same with the stronger heater and the smaller losses.</summary>
    public required double KilowattHoursLow { get; init; }

    /// <summary>The same with the weaker heater and the greater losses.</summary>
    public required double KilowattHoursHigh { get; init; }
}

/// <summary>That a vat is to be warm at a moment.</summary>
/// <param name="Ready">When, UTC.</param>
/// <param name="TargetC">Wanted liquor temperature, °C.</param>
/// <param name="Now">When it is wished, UTC.</param>
/// <param name="LiquorC">The liquor then, °C.</param>
public sealed record WarmWish(DateTimeOffset Ready, double TargetC, DateTimeOffset Now, double LiquorC);
