namespace VatWatch.Charts.Reports.Content;

/// <summary>One figure of a report, in words and in the dyer's units.</summary>
/// <param name="Label">What it is, for example "Highest liquor temperature".</param>
/// <param name="Value">The figure with its unit.</param>
internal sealed record FigureRow(string Label, string Value);
