using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Reports.Pdf;

namespace VatWatch.Charts.Reports;

public sealed record ReportOptions
{
    /// <summary>Zone of all times shown. Default UTC. CSV is always in UTC.</summary>
    public TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Utc;

    /// <summary>Size of a PNG or SVG picture; a telephone's is made higher for a session that needs it. Default <see cref="ChartSize.Page"/>.</summary>
    public ChartSize Chart { get; init; } = ChartSize.Page;

    /// <summary>Whether an SVG picture is drawn light on dark, for a screen at night. Default false; paper is always light.</summary>
    public bool Dark { get; init; }

    /// <summary>Paper of a PDF; null (default) for Letter with US units and A4 with SI.</summary>
    public PaperSize? Paper { get; init; }
}
