using System.Text.Json.Serialization;

namespace VatWatch.Vats;

/// <summary>How far a value may be trusted. Anything but <see cref="Good"/> comes with a reason in words.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Quality>))]
public enum Quality
{
    /// <summary>May be used.</summary>
    [JsonStringEnumMemberName("good")]
    Good,

    /// <summary>There is a value, but something about it is doubtful.</summary>
    [JsonStringEnumMemberName("suspect")]
    Suspect,

    /// <summary>There is no value.</summary>
    [JsonStringEnumMemberName("missing")]
    Missing,

    /// <summary>The probe or its bus reports a fault, or the value cannot be.</summary>
    [JsonStringEnumMemberName("fault")]
    Fault,
}
