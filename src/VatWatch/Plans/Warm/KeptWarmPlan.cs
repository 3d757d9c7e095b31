namespace VatWatch.Plans.Warm;

/// <summary>A wish for a warm vat that is kept: once, or on days of the week. It reminds of the heater and switches nothing. Immutable.</summary>
/// <param name="ReadyAt">Local time at which the vat is to be warm.</param>
/// <param name="TargetC">Wanted liquor temperature, °C.</param>
/// <param name="Days">On which days of the week; empty for once.</param>
/// <param name="Once">The day, where it is for once.</param>
/// <param name="By">Who keeps it, as they gave it.</param>
public sealed record KeptWarmPlan(TimeOnly ReadyAt, double TargetC, IReadOnlyList<DayOfWeek> Days, DateOnly? Once, string By)
{
    /// <summary>Up to this moment nobody is reminded, UTC; null when it was not put off.</summary>
    public DateTimeOffset? PutOffUntil { get; init; }

    /// <summary>The heater's power where a person said it, W; null where it is known.</summary>
    public double? HeaterWatts { get; init; }

    /// <summary>A heater that nobody has switched on is still told of so long after the vat should have been warm.</summary>
    public static TimeSpan Grace { get; } = TimeSpan.FromHours(1);

    /// <summary>The time the vat should be warm that matters now, UTC: the next that is not put off, or one that has just gone by; null when there is none.</summary>
    public DateTimeOffset? Next(DateTimeOffset now, TimeZoneInfo zone)
    {
        var today = Day(now, zone);
        var last = PutOffUntil is { } until && Day(until, zone) > today ? Day(until, zone) : today;
        for (var day = today.AddDays(-1); day <= last.AddDays(8); day = day.AddDays(1))
        {
            var ready = WallTime.At(day, ReadyAt, zone);
            if ((Once == day || Days.Contains(day.DayOfWeek)) && ready > now - Grace && !(ready <= PutOffUntil))
            {
                return ready;
            }
        }

        return null;
    }

    /// <summary>Whether a heater that was entered as on is on for a wish: the one that was said with it, else the one that was next then.</summary>
    /// <param name="ready">The wish, UTC.</param>
    /// <param name="on">When the heater went on, UTC.</param>
    /// <param name="readyBy">The wish that was said with it, UTC.</param>
    public bool IsFor(DateTimeOffset ready, DateTimeOffset on, DateTimeOffset? readyBy, TimeZoneInfo zone) => (readyBy ?? Next(on, zone)) == ready;

    /// <summary>Put off for the time that matters now: nobody is reminded before the one after it.</summary>
    public KeptWarmPlan PutOff(DateTimeOffset now, TimeZoneInfo zone) => this with { PutOffUntil = Next(now, zone) ?? PutOffUntil };

    private static DateOnly Day(DateTimeOffset at, TimeZoneInfo zone) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, zone).DateTime);

    /// <summary>Whether every figure is one that a plan can have; a record that was damaged on disk is not to be taken up.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public bool IsPlausible => TargetC is > 0 and < 100 && Days is not null && By is not null && (Days.Count > 0 || Once is not null) && (PutOffUntil is null or { Year: < 3000 }) && (HeaterWatts is null or (> 0 and <= 100_000));
}

/// <summary>A heater that somebody is to switch on by a kept plan.</summary>
/// <param name="SwitchOn">When, UTC, by what is known now.</param>
/// <param name="Ready">When the vat should be warm, UTC.</param>
/// <param name="TargetC">How warm, °C.</param>
public sealed record HeaterDue(DateTimeOffset SwitchOn, DateTimeOffset Ready, double TargetC)
{
    /// <summary>When the vat is warm if the heater is switched on now, UTC, where that is after <see cref="Ready"/>; null while the wish can be kept.</summary>
    public DateTimeOffset? Late { get; init; }

    /// <summary>What the warm-up is held against afterwards.</summary>
    public ForetoldWarmUp? Foretold { get; init; }
}
