using System.Globalization;

namespace VatWatch.Science.Tests.Carbonate;

/// <summary>Reads the table of pH buffers in the Reference folder; lines beginning with # name the source and the columns.</summary>
internal static class PhBufferTable
{
    public static IEnumerable<(double TemperatureC, double Ph)> Rows(string buffer) =>
        from line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Reference", "ph-buffers.csv"))
        let cells = line.Split(',')
        where cells[0] == buffer
        select (double.Parse(cells[1], CultureInfo.InvariantCulture), double.Parse(cells[2], CultureInfo.InvariantCulture));
}
