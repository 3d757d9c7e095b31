using System.Text.Json.Serialization;

namespace VatWatch.Sessions.Entries;

/// <summary>What the dyer says of a session afterwards.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Verdict>))]
public enum Verdict
{
    /// <summary>As it should be; the vat's baseline is learned from such sessions.</summary>
    [JsonStringEnumMemberName("good")]
    Good,

    /// <summary>Not to be repeated.</summary>
    [JsonStringEnumMemberName("poor")]
    Poor,
}
