using VatWatch.Alarms;
using VatWatch.Charts;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Web;
using VatWatch.Store;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Daemon.Wiring;

/// <summary>Draws the last hours of a vat from the store for the page.</summary>
internal sealed class StoredChart(WatchStore store, IReadOnlyList<VatDefinition> vats, DisplayUnits units, WatchClock clock) : IChartSource
{
    public Task<byte[]?> DrawAsync(VatId vat, TimeSpan span, bool dark, CancellationToken cancel) => Task.Run(
        () =>
        {
            if (vats.FirstOrDefault(one => one.Id == vat) is not { } definition)
            {
                return null;
            }

            var to = clock.Now().Utc;
            var from = to - span;
            using var reader = store.OpenReader();
            var record = new VatRecord(definition, units, from, to, [.. reader.Measurements(vat, from, to)], AlarmJournal.Changes(reader, vat, from, to));
            using var picture = new MemoryStream();
            new ReportWriter(new ReportOptions { Zone = TimeZoneInfo.Local, Chart = ChartSize.Phone }).Write(record, "chart.svg", picture);
            return picture.ToArray();
        },
        cancel);
}
