namespace VatWatch.Alarms.Rules;

/// <summary>Settings of one kind of alarm. Immutable.</summary>
public sealed record AlarmRuleSettings
{
    /// <summary>Whether the alarm exists at all.</summary>
    public bool Enabled { get; init; } = true;

    /// <summary>Priority; null for "as what it guards".</summary>
    public AlarmPriority? Priority { get; init; }

    /// <summary>How long the condition must be met before the alarm stands; 0 s to 24 h. Null for an alarm that works out its own.</summary>
    public TimeSpan? OnDelay { get; init; }

    /// <summary>How long the condition must be clear before the alarm returns; 0 s to 24 h.</summary>
    public TimeSpan OffDelay { get; init; }

    /// <summary>Deadband in the canonical unit of the value; 0 for alarms without a number.</summary>
    public double Deadband { get; init; }

    /// <summary>How often an unacknowledged alarm is told again; 1 min to 24 h.</summary>
    public TimeSpan Repeat { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>How long after its acknowledgement an alarm that still stands becomes unacknowledged again; null for never; 1 min to 24 h.</summary>
    public TimeSpan? ReAlarm { get; init; }

    /// <summary>Whether the alarm stays after its condition has gone until it is acknowledged and reset.</summary>
    public bool Latch { get; init; }

    /// <summary>Longest shelving, 1 min to 24 h; what guards people and fire has 30 min by default.</summary>
    public TimeSpan ShelveAtMost { get; init; } = TimeSpan.FromHours(12);

    /// <summary>Settings with the delays and the reminder as h:mm:ss; without an on-delay the alarm works out its own.</summary>
    internal static AlarmRuleSettings Of(AlarmPriority? priority, string? onDelay, string offDelay, string repeat, double deadband = 0) => new()
    {
        Priority = priority,
        OnDelay = onDelay is null ? null : TimeSpan.Parse(onDelay),
        OffDelay = TimeSpan.Parse(offDelay),
        Repeat = TimeSpan.Parse(repeat),
        Deadband = deadband,
    };

    /// <summary>The same for what guards people and fire: not to be shelved for long.</summary>
    internal static AlarmRuleSettings Guard(AlarmPriority? priority, string? onDelay, string offDelay, string repeat, double deadband = 0) =>
        Of(priority, onDelay, offDelay, repeat, deadband) with { ShelveAtMost = TimeSpan.FromMinutes(30) };
}
