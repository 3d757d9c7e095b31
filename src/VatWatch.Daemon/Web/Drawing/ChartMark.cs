using System.Text.Json.Serialization;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>Something that happened, as a mark in the chart and a line in the list below it.</summary>
/// <param name="At">When, UTC.</param>
/// <param name="Until">When it was over, UTC; null for what has no length or is not over.</param>
/// <param name="Kind">What, which chooses the shape.</param>
/// <param name="Letter">What stands in the shape, so that it does not hang on shape or colour alone.</param>
/// <param name="Text">What happened, in words.</param>
internal sealed record ChartMark(DateTimeOffset At, DateTimeOffset? Until, ChartMarkKind Kind, string Letter, string Text);

[JsonConverter(typeof(JsonStringEnumConverter<ChartMarkKind>))]
internal enum ChartMarkKind
{
    /// <summary>The goods went in.</summary>
    [JsonStringEnumMemberName("dip-in")]
    DipIn,

    /// <summary>They came out.</summary>
    [JsonStringEnumMemberName("dip-out")]
    DipOut,

    [JsonStringEnumMemberName("added")]
    Added,

    /// <summary>Stirred, lid off or on.</summary>
    [JsonStringEnumMemberName("handled")]
    Handled,

    [JsonStringEnumMemberName("note")]
    Note,

    [JsonStringEnumMemberName("alarm")]
    Alarm,

    [JsonStringEnumMemberName("calibration")]
    Calibration,
}
