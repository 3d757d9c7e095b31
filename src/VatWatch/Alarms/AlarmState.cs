namespace VatWatch.Alarms;

/// <summary>State of one alarm, by the lifecycle of IEC 62682 / ANSI/ISA-18.2.</summary>
public enum AlarmState
{
    /// <summary>No condition, nothing to acknowledge.</summary>
    Normal,

    /// <summary>The condition stands and nobody has said "seen".</summary>
    Unacknowledged,

    /// <summary>The condition stands and somebody has seen it.</summary>
    Acknowledged,

    /// <summary>The condition has gone before anybody saw it.</summary>
    ReturnedUnacknowledged,

    /// <summary>The condition has gone, but the alarm stays until it is acknowledged and reset.</summary>
    Latched,

    /// <summary>Set aside by a person for a limited time.</summary>
    Shelved,

    /// <summary>Taken out of service for maintenance.</summary>
    OutOfService,

    /// <summary>Suppressed by design: another state of the vat makes it meaningless.</summary>
    Suppressed,
}
