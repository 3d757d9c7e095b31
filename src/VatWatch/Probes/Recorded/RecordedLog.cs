using System.Globalization;

namespace VatWatch.Probes.Recorded;

/// <summary>
/// Reads a recorded log: comma-separated values (RFC 4180) whose first line names at least the columns <c>time</c>, <c>probe</c> and
/// <c>value</c>, in any order and case. Of other columns <c>unit</c>, <c>quality</c> and <c>reason</c> are read, the rest is passed over. Times are ISO 8601; without an offset they are UTC. An empty value
/// says that the probe gave none. Rows come in the order of the file and one at a time: a log may be larger than the memory.
/// </summary>
public static class RecordedLog
{
    private static readonly string[] Wanted = ["time", "probe", "value"];
    private static readonly string[] Welcome = ["unit", "quality", "reason"];

    private static readonly Dictionary<string, Quality> Qualities = Enum.GetValues<Quality>().ToDictionary(quality => quality.ToString(), StringComparer.OrdinalIgnoreCase);

    private static readonly string[] TimeFormats =
    [
        "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd' 'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd' 'HH:mmK",
        "yyyyMMdd'T'HHmmss.FFFFFFFK",
    ];

    /// <summary>Reads rows as they are asked for; each line that cannot be read goes to <paramref name="onFault"/> and is left out.</summary>
    /// <exception cref="RecordedLogException">The first line does not name the columns wanted (on reading the first row).</exception>
    public static IEnumerable<RecordedRow> Read(TextReader reader, Action<RecordedLogFault> onFault)
    {
        return ReadRows(new CommaSeparated(reader), onFault);
    }

    private static IEnumerable<RecordedRow> ReadRows(CommaSeparated lines, Action<RecordedLogFault> onFault)
    {
        var columns = Columns(lines);

        // What is read at the same time has the same label.
        var newest = (Text: (string?)null, Utc: default(DateTimeOffset));
        while (lines.TryRead(out var fields, out var line, out var fault))
        {
            if (fault is null && fields is [var blank] && string.IsNullOrWhiteSpace(blank))
                continue;
            if (fault is null && TryParse(fields, columns, line, ref newest, out var row, out fault))
                yield return row;
            else
                onFault(new RecordedLogFault(line, fault ?? ""));
        }
    }

    private static int[] Columns(CommaSeparated lines)
    {
        if (!lines.TryRead(out var header, out _, out var fault))
            throw new RecordedLogException("the log is empty; wanted a first line \"time,probe,value\"");
        var columns = Array.ConvertAll([.. Wanted, .. Welcome], name => header.FindIndex(field => field.Trim().Equals(name, StringComparison.OrdinalIgnoreCase)));
        if (fault is null && Array.IndexOf(columns, -1, 0, Wanted.Length) < 0)
            return columns;
        throw new RecordedLogException(
            $"the first line is \"{FreeText.Shown(string.Join(',', header))}\"; wanted a line that names the columns time, probe and value");
    }

    private static bool TryParse(List<string> fields, int[] columns, int line, ref (string? Text, DateTimeOffset Utc) newest, out RecordedRow row, out string? fault)
    {
        row = default;
        var last = Math.Max(columns[0], Math.Max(columns[1], columns[2]));
        if (last >= fields.Count)
        {
            fault = $"{fields.Count} fields; wanted at least {last + 1}, as the first line names them";
            return false;
        }

        var (time, probe, value) = (fields[columns[0]].Trim(), fields[columns[1]].Trim(), fields[columns[2]].Trim());
        var (unit, quality, reason) = (Optional(fields, columns[3]), Optional(fields, columns[4]), Optional(fields, columns[5]));
        fault = null;
        if (time != newest.Text && TryTime(time, out var utc))
            newest = (time, utc);
        if (time != newest.Text)
            fault = $"time is \"{FreeText.Shown(time)}\"; wanted ISO 8601 like \"2026-03-01T21:30:05Z\"";
        else if (probe.Length == 0)
            fault = "probe is empty; wanted the name of a probe";
        else if (!TryNumber(value, out var number))
            fault = $"value is \"{FreeText.Shown(value)}\"; wanted a number like \"46.2\", or nothing where the probe gave none";
        else if (quality is not null && !Qualities.ContainsKey(quality))
            fault = $"quality is \"{FreeText.Shown(quality)}\"; wanted good, suspect, missing or fault";
        else
            row = new RecordedRow(line, newest.Utc, new ProbeId(probe), number, unit, quality is null ? null : Qualities[quality], reason is null ? null : FreeText.Clean(reason));
        return fault is null;
    }

    /// <summary>A time in ISO 8601; without an offset it is UTC.</summary>
    internal static bool TryTime(string text, out DateTimeOffset utc) => TryUsual(text, out utc) || DateTimeOffset.TryParseExact(
        text, TimeFormats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out utc);

    /// <summary>The way in which nearly every log writes it, "2026-03-01T21:30:05Z", which the framework takes ten times as long to read.</summary>
    private static bool TryUsual(string text, out DateTimeOffset utc)
    {
        utc = default;
        if (text is not [_, _, _, _, '-', _, _, '-', _, _, 'T', _, _, ':', _, _, ':', _, _, 'Z'])
            return false;
        var (year, month, day) = (100 * Two(0) + Two(2), Two(5), Two(8));
        var (hour, minute, second) = (Two(11), Two(14), Two(17));
        if (year is < 1 or > 9999 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month) || hour is < 0 or > 23 || minute is < 0 or > 59 || second is < 0 or > 59)
            return false;
        utc = new(year, month, day, hour, minute, second, TimeSpan.Zero);
        return true;

        int Two(int at) => char.IsAsciiDigit(text[at]) && char.IsAsciiDigit(text[at + 1]) ? 10 * (text[at] - '0') + text[at + 1] - '0' : -10_000;
    }

    private static string? Optional(List<string> fields, int column) =>
        column >= 0 && column < fields.Count && fields[column].Trim() is { Length: > 0 } text ? text : null;

    private static bool TryNumber(string text, out double? number)
    {
        number = null;
        if (text.Length == 0)
            return true;
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
            return false;
        number = value;
        return true;
    }
}

/// <summary>A file that is no recorded log at all: no line of it can be read. The message says what was seen and what was wanted.</summary>
public sealed class RecordedLogException(string message) : Exception(message);

/// <summary>A line of a recorded log that could not be read and was left out.</summary>
/// <param name="Line">Number of the line it began on, from 1.</param>
/// <param name="Sentence">What was seen and what was wanted.</param>
public sealed record RecordedLogFault(int Line, string Sentence)
{
    public override string ToString() => $"line {Line}: {Sentence}";
}
