using System.Text;
using VatWatch.Charts.Export;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports.Html;
using VatWatch.Charts.Reports.Pdf;

namespace VatWatch.Charts.Reports;

/// <summary>
/// Writes the record of a vat as a picture, a table of measurements or a report, by the extension of the file name. Thread safe.
/// </summary>
public sealed class ReportWriter(ReportOptions options)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private static readonly Dictionary<string, Action<VatRecord, ReportOptions, Stream>> Formats = new(StringComparer.OrdinalIgnoreCase)
    {
        [".csv"] = WriteCsv,
        [".html"] = (record, options, stream) => WriteText(HtmlReport.Of(record, options), stream),
        [".pdf"] = PdfReport.Write,
        [".png"] = (record, options, stream) => SessionChart.WritePng(record, options.Zone, SessionChart.Grown(record, options.Chart), stream),
        [".svg"] = (record, options, stream) => WriteText(SvgOf(record, options), stream),
    };

    /// <summary>The extensions that there are, for a sentence.</summary>
    public static string FormatsText { get; } = string.Join(", ", Formats.Keys.Order().SkipLast(1)) + " or " + Formats.Keys.Order().Last();

    /// <summary>Whether a file of this name can be written.</summary>
    public static bool Knows(string fileName) => Formats.ContainsKey(Path.GetExtension(fileName));

    /// <summary>Writes a file. It appears under its name only when it is whole; one of that name is replaced.</summary>
    /// <exception cref="UnknownReportFormatException">The extension is none of <see cref="FormatsText"/>.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be written.</exception>
    public void Write(VatRecord record, string path)
    {
        if (!Knows(path))
            throw new UnknownReportFormatException(Path.GetFileName(path));
        WholeFile.Write(path, stream => Write(record, path, stream));
    }

    /// <summary>
    /// Writes a report of a made-up hour to nowhere, which loads fonts, drawing library and code. That takes longer than a whole report afterwards: to be done
    /// while something else is read.
    /// </summary>
    /// <param name="fileName">Its extension is that of the report to come; nothing is done for one that there is none of.</param>
    public void Prepare(string fileName)
    {
        if (Knows(fileName))
            Write(ReportRehearsal.Record(), fileName, Stream.Null);
    }

    /// <summary>Writes to a stream, which is left open, in the format of <paramref name="fileName"/>'s extension.</summary>
    /// <exception cref="UnknownReportFormatException">The extension is none of <see cref="FormatsText"/>.</exception>
    public void Write(VatRecord record, string fileName, Stream stream)
    {
        if (!Formats.TryGetValue(Path.GetExtension(fileName), out var write))
            throw new UnknownReportFormatException(fileName);
        write(record, options, stream);
    }

    private static void WriteCsv(VatRecord record, ReportOptions options, Stream stream)
    {
        using var writer = new StreamWriter(stream, Utf8, bufferSize: 64 * 1024, leaveOpen: true);
        MeasurementCsv.Write(record.Measurements, writer);
    }

    private static string SvgOf(VatRecord record, ReportOptions options)
    {
        var svg = SessionChart.Svg(record, options.Zone, SessionChart.Grown(record, options.Chart));
        return options.Dark ? NightInks.Recolour(svg) : svg;
    }

    private static void WriteText(string text, Stream stream)
    {
        using var writer = new StreamWriter(stream, Utf8, bufferSize: 64 * 1024, leaveOpen: true);
        writer.Write(text);
    }
}

/// <summary>A report was asked for in a format that there is none of. The message says what was seen and what is wanted.</summary>
/// <param name="formats">The extensions that there are; null for those of a record's report.</param>
public sealed class UnknownReportFormatException(string fileName, string? formats = null) : Exception(
    $"report '{fileName}' ends in \"{Path.GetExtension(fileName)}\"; wanted {formats ?? ReportWriter.FormatsText}; nothing was written");

/// <summary>Sentences that every form of report shares.</summary>
internal static class ReportText
{
    /// <summary>The standing caution (safety facts, 0): a record must not be taken for protection.</summary>
    public const string Caution = "VatWatch keeps a record and gives warnings; it is not a safety device.";

    /// <summary>What was too short for the table of gaps.</summary>
    public static string ShortGaps(int readings) =>
        readings == 1 ? "1 single reading gave no value besides." : $"{readings} single readings gave no value besides.";
}
