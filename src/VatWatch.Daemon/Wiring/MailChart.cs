using VatWatch.Charts;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Reports;
using VatWatch.Notifications.Mail;
using VatWatch.Pipeline.Configuration;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>Draws the last hours of a vat from the store for a mail, one picture at a time.</summary>
internal sealed class MailChart(WatchStore store, WatchConfiguration watch, WatchClock clock) : IVatPicture
{
    /// <summary>A warm-up and what led to the alarm.</summary>
    private static readonly TimeSpan Span = TimeSpan.FromHours(6);

    /// <summary>Drawing takes memory; several mails at once wait for each other, each within its own limit.</summary>
    private readonly Lock _one = new();

    public Task<byte[]?> DrawAsync(VatId vat, DisplayUnits units, CancellationToken cancel) => Task.Run(
        () =>
        {
            if (watch.Vats.FirstOrDefault(one => one.Definition.Id == vat) is not { } plan)
            {
                return null;
            }

            lock (_one)
            {
                cancel.ThrowIfCancellationRequested();
                return Draw(plan.Definition, units);
            }
        },
        cancel);

    private byte[] Draw(VatDefinition vat, DisplayUnits units)
    {
        // The newest readings may still wait for their commit; the chart ends where the disk does.
        var to = clock.Now().Utc;
        var from = to - Span;
        using var reader = store.OpenReader();
        var record = StoredRecord.ForPicture(reader, vat, units, from, to);
        using var picture = new MemoryStream();
        new ReportWriter(new ReportOptions { Zone = clock.Zone, Chart = ChartSize.Phone }).Write(record, "chart.png", picture);
        return picture.ToArray();
    }
}
