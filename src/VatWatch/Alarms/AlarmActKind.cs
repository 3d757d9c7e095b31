using System.Text.Json.Serialization;

namespace VatWatch.Alarms;

/// <summary>What a person may do with an alarm.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<AlarmActKind>))]
public enum AlarmActKind
{
    /// <summary>Says that somebody has seen it.</summary>
    [JsonStringEnumMemberName("acknowledge")]
    Acknowledge,

    /// <summary>Sets it aside for a limited time.</summary>
    [JsonStringEnumMemberName("shelve")]
    Shelve,

    /// <summary>Takes it off the shelf before its time.</summary>
    [JsonStringEnumMemberName("unshelve")]
    Unshelve,

    /// <summary>Takes it out of service until somebody returns it.</summary>
    [JsonStringEnumMemberName("out-of-service")]
    TakeOutOfService,

    /// <summary>Puts it back into service.</summary>
    [JsonStringEnumMemberName("return-to-service")]
    ReturnToService,

    /// <summary>Ends a latched alarm that was acknowledged.</summary>
    [JsonStringEnumMemberName("reset")]
    Reset,

    /// <summary>Writes a line beside it into the journal; changes nothing.</summary>
    [JsonStringEnumMemberName("note")]
    Note,
}
