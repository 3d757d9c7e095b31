namespace VatWatch.Charts.Reports;

/// <summary>A report was asked for in a format that there is none of. The message says what was seen and what is wanted.</summary>
public sealed class UnknownReportFormatException(string fileName) : Exception(
    $"report '{fileName}' ends in \"{Path.GetExtension(fileName)}\"; wanted {ReportWriter.FormatsText}; nothing was written");
