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

    public required IReadOnlyList<ReportTable> Tables { get; init; }

    /// <summary>The size on a telephone.</summary>
    public ChartSize Phone { get; init; } = ChartSize.Phone;
}

/// <summary>A table of a report, in words.</summary>
/// <param name="Columns">Heads of the columns; the first column names the row.</param>
/// <param name="Rows">As many cells as there are columns in each.</param>
public sealed record ReportTable(string Heading, IReadOnlyList<string> Columns, IReadOnlyList<string[]> Rows)
{
    /// <summary>A sentence below it; null for none.</summary>
    public string? Note { get; init; }
}
