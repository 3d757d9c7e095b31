using System.Globalization;

namespace VatWatch.SystemTests.Faults;

/// <summary>One line of the readings that the daemon kept, as its own export writes them.</summary>
/// <param name="Time">Label, UTC.</param>
/// <param name="Probe">Probe.</param>
/// <param name="Value">Value; null when there is none.</param>
/// <param name="Quality">Word of its quality.</param>
/// <param name="Reason">Why it is not good.</param>
/// <param name="Trusted">Whether the clock was to be believed.</param>
internal sealed record KeptReading(DateTimeOffset Time, string Probe, double? Value, string Quality, string Reason, bool Trusted)
{
    public static IEnumerable<KeptReading> Read(IEnumerable<string> lines) => lines.Skip(1).Select(Parse);

    /// <summary>Longest time from one reading of a probe to its next.</summary>
    public static TimeSpan LongestGap(IEnumerable<KeptReading> readings)
    {
        var times = readings.Select(reading => reading.Time).Order().ToList();
        return times.Zip(times.Skip(1), (a, b) => b - a).DefaultIfEmpty().Max();
    }

    private static KeptReading Parse(string line)
    {
        var fields = Fields(line).ToList();
        return new(
            DateTimeOffset.Parse(fields[0], CultureInfo.InvariantCulture),
            fields[1],
            fields[2].Length == 0 ? null : double.Parse(fields[2], CultureInfo.InvariantCulture),
            fields[4],
            fields[5],
            fields[9] == "true");
    }

    private static IEnumerable<string> Fields(string line)
    {
        var quoted = false;
        var begin = 0;
        for (var at = 0; at <= line.Length; at++)
        {
            if (at == line.Length || (line[at] == ',' && !quoted))
            {
                yield return line[begin..at].Trim('"');
                begin = at + 1;
            }
            else if (line[at] == '"')
            {
                quoted = !quoted;
            }
        }
    }
}
