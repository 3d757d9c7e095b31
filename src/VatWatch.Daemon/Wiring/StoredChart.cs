using VatWatch.Charts;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>Draws and sums up the record of a vat from the store for the page: short spans from the readings, long ones from their rollups.</summary>
internal sealed class StoredChart(WatchStore store, IReadOnlyList<VatDefinition> vats, DisplayUnits units, WatchClock clock) : IChartSource
{
    public Task<byte[]?> DrawAsync(VatId vat, ChartRange range, bool dark, CancellationToken cancel) => ReadAsync(
        vat,
        (reader, definition, now) =>
        {
            var (from, to) = ChartWindow.Of(range, reader, vat, now);
            using var picture = new MemoryStream();
            new ReportWriter(new ReportOptions { Zone = clock.Zone, Chart = ChartSize.Phone, Dark = dark }).Write(StoredRecord.ForPicture(reader, definition, units, from, to), "chart.svg", picture);
            return picture.ToArray();
        },
        cancel);

    public Task<VatTraces?> ReadAsync(VatId vat, ChartRange range, int columns, CancellationToken cancel) => ReadAsync(
        vat,
        (reader, definition, now) => new StoredTraces(reader, definition, units, clock.Zone).Read(ChartWindow.Of(range, reader, vat, now), columns, now),
        cancel);

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
