using System.Text.Json.Serialization;

namespace VatWatch.Alarms;

/// <summary>State of one alarm, by the lifecycle of IEC 62682 / ANSI/ISA-18.2.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<AlarmState>))]
public enum AlarmState
{
    /// <summary>No condition, nothing to acknowledge.</summary>
    [JsonStringEnumMemberName("normal")]
    Normal,

    /// <summary>The condition stands and nobody has said "seen".</summary>
    [JsonStringEnumMemberName("unacknowledged")]
    Unacknowledged,

    /// <summary>The condition stands and somebody has seen it.</summary>
    [JsonStringEnumMemberName("acknowledged")]
    Acknowledged,

    /// <summary>The condition has gone before anybody saw it.</summary>
    [JsonStringEnumMemberName("returned-unacknowledged")]
    ReturnedUnacknowledged,

    /// <summary>The condition has gone, but the alarm stays until it is acknowledged and reset.</summary>
    [JsonStringEnumMemberName("latched")]
    Latched,

    /// <summary>Set aside by a person for a limited time.</summary>
    [JsonStringEnumMemberName("shelved")]
    Shelved,

    /// <summary>Taken out of service for maintenance.</summary>
    [JsonStringEnumMemberName("out-of-service")]
    OutOfService,

    /// <summary>Suppressed by design: another state of the vat makes it meaningless.</summary>
    [JsonStringEnumMemberName("suppressed")]
    Suppressed,
}
