using System.Text.Json.Serialization;

namespace VatWatch.Alarms;

/// <summary>How much an alarm matters, from the severity of what follows and the time left to respond.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<AlarmPriority>))]
public enum AlarmPriority
{
    /// <summary>Some time this week.</summary>
    [JsonStringEnumMemberName("low")]
    Low,

    /// <summary>Before the next session.</summary>
    [JsonStringEnumMemberName("medium")]
    Medium,

    /// <summary>Within the hour: the vat or the yarn is at stake.</summary>
    [JsonStringEnumMemberName("high")]
    High,

    /// <summary>Now: people, fire or the whole vat.</summary>
    [JsonStringEnumMemberName("critical")]
    Critical,
}
