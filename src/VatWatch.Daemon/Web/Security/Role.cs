using System.Text.Json.Serialization;

namespace VatWatch.Daemon.Web.Security;

/// <summary>What somebody may do on the pages and through the interface.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Role>))]
public enum Role
{
    /// <summary>Look at everything, change nothing.</summary>
    [JsonStringEnumMemberName("viewer")]
    Viewer,

    /// <summary>Look and change: acknowledge, shelve, write into the log book, calibrate.</summary>
    [JsonStringEnumMemberName("operator")]
    Operator,
}
