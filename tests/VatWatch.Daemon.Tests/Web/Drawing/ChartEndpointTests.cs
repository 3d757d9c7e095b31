using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Charts;
using VatWatch.Daemon.Wiring;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Web.Drawing;

public sealed class ChartEndpointTests : IDisposable
{
    private static readonly DateTimeOffset Dusk = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);
    private readonly Verbs.Bench _bench = new();

    /// <summary>One reading in a month at which the platinum electrode was out of the liquor.</summary>
    [Theory]
    [InlineData(20)] // from readings
    [InlineData(100)] // from minutes
    [InlineData(700)] // from quarter hours
    public async Task A_spike_of_one_reading_is_in_the_picture_however_long_the_span(int hours)
    {
        var configuration = DaemonConfiguration.Load(_bench.Config, TextWriter.Null)!;
        var vat = configuration.Watch.Vats[0].Definition;
        await using var store = WatchStore.Open(_bench.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
        for (var minute = 0; minute < hours * 60; minute++)
        {
            var at = TimeSpan.FromMinutes(minute);
            var millivolts = minute == 777 ? -12.5 : -650 - minute % 5;
            store.Enqueue(new Measurement(vat.Id, new ProbeId("platinum"), Quantity.Orp, new Stamp(Dusk + at, at, true), millivolts, millivolts, Quality.Good, null, null));
        }

        await store.FlushAsync(TestContext.Current.CancellationToken);
        using var reader = store.OpenReader();

        var record = StoredRecord.ForPicture(reader, vat, configuration.Watch.Units, Dusk, Dusk.AddHours(hours));

        Assert.Equal(-12.5, Assert.Single(record.Measurements, m => m.Value > -600).Value);
        Assert.InRange(record.Measurements.Count, 500, 3000);
        Assert.Equal(record.Measurements.OrderBy(m => m.Stamp.Utc), record.Measurements);
    }

    public void Dispose() => _bench.Dispose();
}
