using VatWatch.Alarms;
using VatWatch.Charts;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>Draws and sums up the record of a vat from the store for the page: short spans from the readings, long ones from their rollups.</summary>
internal sealed class StoredChart(WatchStore store, IReadOnlyList<VatDefinition> vats, DisplayUnits units, WatchClock clock) : IChartSource
{
    /// <summary>More columns than a phone's picture has points across.</summary>
    private const int Columns = 700;

    /// <summary>From here on columns are wide enough to be made of rollups (<see cref="StoreReader.Columns(VatId, DateTimeOffset, DateTimeOffset, int, TimeSpan)"/>).</summary>
    private static readonly TimeSpan LongSpan = TimeSpan.FromHours(24);

    public Task<byte[]?> DrawAsync(VatId vat, ChartRange range, bool dark, CancellationToken cancel) => ReadAsync(
        vat,
        (reader, definition, now) =>
        {
            var (from, to) = ChartWindow.Of(range, reader, vat, now);
            using var picture = new MemoryStream();
            new ReportWriter(new ReportOptions { Zone = TimeZoneInfo.Local, Chart = ChartSize.Phone, Dark = dark }).Write(Record(reader, definition, units, from, to), "chart.svg", picture);
            return picture.ToArray();
        },
        cancel);

    public Task<VatTraces?> ReadAsync(VatId vat, ChartRange range, int columns, CancellationToken cancel) => ReadAsync(
        vat,
        (reader, definition, now) => new StoredTraces(reader, definition, units).Read(ChartWindow.Of(range, reader, vat, now), columns, now),
        cancel);

    /// <summary>What is drawn of a vat between two moments.</summary>
    public static VatRecord Record(StoreReader reader, VatDefinition vat, DisplayUnits units, DateTimeOffset from, DateTimeOffset to) => new(
        vat, units, from, to, to - from < LongSpan ? [.. reader.Measurements(vat.Id, from, to)] : Long(reader, vat, from, to), AlarmJournal.Changes(reader, vat.Id, from, to));

    private static List<Measurement> Long(StoreReader reader, VatDefinition vat, DateTimeOffset from, DateTimeOffset to)
    {
        var columns = reader.Columns(vat.Id, from, to, Columns, (to - from) / Columns);
        return [.. vat.Probes.Where(probe => columns.ContainsKey(probe.Id)).SelectMany(probe => ColumnTraces.Of(vat.Id, probe, columns[probe.Id], from))];
    }

    private Task<T?> ReadAsync<T>(VatId vat, Func<StoreReader, VatDefinition, DateTimeOffset, T> read, CancellationToken cancel)
        where T : class => Task.Run(
        () =>
        {
            if (vats.FirstOrDefault(one => one.Id == vat) is not { } definition)
            {
                return null;
            }

            using var reader = store.OpenReader();
            return read(reader, definition, clock.Now().Utc);
        },
        cancel);
}
