using VatWatch.Measurements;

namespace VatWatch.Charts.Export;

/// <summary>
/// Writes measurements as comma-separated values by RFC 4180: lines end in CR LF, a field with a comma, a quotation mark or a line break is
/// quoted. Numbers are invariant and exact (they read back as the same number); times are ISO 8601 UTC to the microsecond.
/// </summary>
public static class MeasurementCsv
{
    /// <summary>The first line. <c>value</c> is in <c>unit</c>, <c>raw</c> as the probe delivered it; <c>calibration</c> is the row of the calibration used; what is missing is empty. The first three are what a recorded log needs.</summary>
    public const string Header = "time,probe,value,unit,quality,reason,raw,vat,measures,utcTrusted,calibration";

    /// <summary>Writes the header and one line per measurement, as they come: nothing is held back or left out.</summary>
    public static void Write(IEnumerable<Measurement> measurements, TextWriter writer)
    {
        EndLine(writer, Header);
        foreach (var measurement in measurements)
            EndLine(writer, Line(measurement));
    }

    private static string Line(Measurement measurement) => string.Join(',',
        measurement.Stamp.Utc.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'"),
        Field(measurement.Probe.Value),
        Number(measurement.Value),
        measurement.Quantity.Unit(),
        measurement.Quality.Word(),
        Field(measurement.Reason ?? ""),
        Number(measurement.Raw),
        Field(measurement.Vat.Value),
        measurement.Quantity.Word(),
        measurement.Stamp.UtcTrusted ? "true" : "false",
        measurement.Calibration?.ToString() ?? "");

    private static string Number(double? number) => number?.ToString("R") ?? "";

    private static string Field(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static void EndLine(TextWriter writer, string line)
    {
        writer.Write(line);
        writer.Write("\r\n");
    }
}
