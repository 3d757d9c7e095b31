using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;

namespace VatWatch.Charts.Reports;

/// <summary>A chart of more than one session, with its tables: <see cref="TabledChartWriter"/> makes files of it.</summary>
internal sealed record TabledChart
{
    /// <summary>What it is about.</summary>
    public required string Title { get; init; }

    /// <summary>One line below the title.</summary>
    public required string Below { get; init; }

    /// <summary>Draws the chart in a size, with or without the title.</summary>
    public required Action<SKCanvas, ChartSize, bool> Draw { get; init; }

    /// <summary>Its tables.</summary>
    public required IReadOnlyList<ReportTable> Tables { get; init; }

    /// <summary>The size on a telephone.</summary>
    public ChartSize Phone { get; init; } = ChartSize.Phone;
}
