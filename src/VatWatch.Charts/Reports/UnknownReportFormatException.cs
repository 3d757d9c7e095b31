namespace VatWatch.Charts.Reports;

/// <summary>A report was asked for in a format that there is none of. The message says what was seen and what is wanted.</summary>
/// <param name="fileName">The name asked for.</param>
/// <param name="formats">The extensions that there are; null for those of a record's report.</param>
public sealed class UnknownReportFormatException(string fileName, string? formats = null) : Exception(
    $"report '{fileName}' ends in \"{Path.GetExtension(fileName)}\"; wanted {formats ?? ReportWriter.FormatsText}; nothing was written");
