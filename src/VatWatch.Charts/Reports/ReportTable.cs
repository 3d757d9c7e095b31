namespace VatWatch.Charts.Reports;

/// <summary>A table of a report, in words.</summary>
/// <param name="Columns">Heads of the columns; the first column names the row.</param>
/// <param name="Rows">As many cells as there are columns in each.</param>
public sealed record ReportTable(string Heading, IReadOnlyList<string> Columns, IReadOnlyList<string[]> Rows)
{
    /// <summary>A sentence below it; null for none.</summary>
    public string? Note { get; init; }
}
