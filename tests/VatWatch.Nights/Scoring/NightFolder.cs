using VatWatch.Nights.Scenes;

namespace VatWatch.Nights.Scoring;

/// <summary>
/// Writes a night for <c>vatwatch replay</c>: <c>log.csv</c> (<c>time,probe,value</c>), <c>entries.csv</c> (<c>time,entry,value</c>), <c>vatwatch.json</c>, and
/// <c>truth.csv</c> (<c>time,meanC,atProbeC,heaterW,orpMillivolts,ph</c>, once a minute), which the watch never sees. Times are ISO 8601, UTC.
/// </summary>
internal static class NightFolder
{
    public static void Write(MadeNight night, string folder)
    {
        Directory.CreateDirectory(folder);
        Lines(folder, "log.csv", "time,probe,value", night.Rows.Select(row => $"{Time(row.Time)},{row.Probe},{row.Value}"));
        Lines(folder, "entries.csv", "time,entry,value", night.Entries.Select(entry => $"{Time(entry.Time)},{entry.Entry},{entry.Value}"));
        Lines(folder, "truth.csv", "time,meanC,atProbeC,heaterW,orpMillivolts,ph", night.Truth.Points.Select(point =>
            $"{Time(point.Time)},{point.Mean:0.000},{point.AtProbe:0.000},{point.Watts:0.0},{point.Orp:0.0},{point.Ph:0.000}"));
        File.WriteAllText(Path.Combine(folder, "vatwatch.json"), night.Configuration + "\n");
    }

    private static void Lines(string folder, string name, string header, IEnumerable<string> lines) =>
        File.WriteAllLines(Path.Combine(folder, name), [header, .. lines]);

    private static string Time(DateTimeOffset time) => $"{time:yyyy-MM-ddTHH:mm:ssZ}";
}
