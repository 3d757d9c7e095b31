using System.Text.Json.Serialization;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>What a mark stands for.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<ChartMarkKind>))]
internal enum ChartMarkKind
{
    /// <summary>The goods went in.</summary>
    [JsonStringEnumMemberName("dip-in")]
    DipIn,

    /// <summary>They came out.</summary>
    [JsonStringEnumMemberName("dip-out")]
    DipOut,

    /// <summary>Something was added.</summary>
    [JsonStringEnumMemberName("added")]
    Added,

    /// <summary>Stirred, lid off or on.</summary>
    [JsonStringEnumMemberName("handled")]
    Handled,

    /// <summary>A note or a picture.</summary>
    [JsonStringEnumMemberName("note")]
    Note,

    /// <summary>An alarm came up.</summary>
    [JsonStringEnumMemberName("alarm")]
    Alarm,

    /// <summary>An electrode was calibrated.</summary>
    [JsonStringEnumMemberName("calibration")]
    Calibration,
}
