using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Charts.Life;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Reports.Content;
using VatWatch.Charts.Reports.Html;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Charts.Tests;

/// <summary>Records as they come from a real store.</summary>
public sealed class StoredRecordTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-record").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_session_comes_with_the_night_before_its_entries_and_its_conditions()
    {
        var id = await Write([.. MorningOfDips.Bare().Measurements], logBook: true);
        using var reader = StoreReader.OpenFolder(_folder);
        var record = StoredRecord.OfSession(reader, NightOfWarming.Vat, DisplayUnits.Si, id!.Value)!;
        Assert.Equal(id, record.Session!.Id);
        // Begun at 3 h; the record begins with the first reading, and ends half an hour after the session or with the last reading.
        Assert.Equal((NightOfWarming.Start, NightOfWarming.Start.AddHours(8)), (record.From, record.To));
        Assert.Equal(MorningOfDips.Bare().Measurements.Count, record.Measurements.Count);
        Assert.Equal(3, record.Dips.Count);
        Assert.Equal(481, record.Conditions.Count);
        Assert.Null(StoredRecord.OfSession(reader, NightOfWarming.Vat, DisplayUnits.Si, new SessionId("2031-01-01")));
    }

    [Fact]
    public async Task A_session_alone_leaves_the_night_out_but_its_first_minutes_rest_on_it()
    {
        var id = await Write([.. MorningOfDips.Bare().Measurements], logBook: true);
        using var reader = StoreReader.OpenFolder(_folder);
        var record = StoredRecord.OfSessionAlone(reader, NightOfWarming.Vat, DisplayUnits.Si, id!.Value)!;
        Assert.Equal((NightOfWarming.Start.AddHours(3), NightOfWarming.Start.AddHours(7.5)), (record.From, record.To));
        Assert.All(record.Measurements, reading => Assert.InRange(reading.Stamp.Utc, record.From, record.To));
        Assert.Equal(3, record.Dips.Count);
        Assert.DoesNotContain(record.Entries, entry => entry.Kind == EntryKind.Added);
        Assert.NotNull(record.Looks.First().MarginMillivolts);
        Assert.Null(StoredRecord.OfSessionAlone(reader, NightOfWarming.Vat, DisplayUnits.Si, new SessionId("2031-01-01")));
    }

    [Fact]
    public async Task The_life_of_a_vat_has_the_condition_in_which_each_session_began()
    {
        await Write([.. MorningOfDips.Bare().Measurements], logBook: true);
        using var reader = StoreReader.OpenFolder(_folder);
        var session = Assert.Single(VatLife.Load(reader, NightOfWarming.Vat, DisplayUnits.Si).Sessions);
        Assert.Equal(45, session.AtStart!.TemperatureC!.Value, 0.1);
        Assert.Equal(100, session.Tally.Added[Material.SodaAsh]);
    }

    [Fact]
    public async Task A_long_span_is_summed_up_in_bounded_memory_and_keeps_its_peak()
    {
        var fortyDays = TimeSpan.FromDays(40);
        var readings = new List<Measurement>();
        for (var time = TimeSpan.Zero; time <= fortyDays; time += TimeSpan.FromMinutes(5))
            readings.Add(NightOfWarming.Good("liquor", Quantity.Temperature, time, time == TimeSpan.FromDays(20.5) ? 61.5 : 45));
        await Write(readings, logBook: false);
        using var reader = StoreReader.OpenFolder(_folder);
        var record = StoredRecord.Between(reader, NightOfWarming.Vat, DisplayUnits.Si, NightOfWarming.Start, NightOfWarming.Start + fortyDays);
        // 40 days in 1400 columns are 41 min each, and so three quarters of an hour.
        Assert.Equal(TimeSpan.FromMinutes(45), record.SummedUpBy);
        Assert.InRange(record.Measurements.Count, 1280 * 4 - 8, 1281 * 4);
        Assert.Equal(61.5, record.Measurements.Max(one => one.Value));
        Assert.Empty(record.Conditions);
        var report = HtmlReport.Of(record, new ReportOptions());
        Assert.Contains("This span is long", report);
        Assert.Contains("No states were kept for this time", report);
        Assert.Empty(new SessionFigures(record, TimeZoneInfo.Utc).Gaps);
    }

    private async Task<SessionId?> Write(IReadOnlyList<Measurement> readings, bool logBook)
    {
        await using var store = WatchStore.Open(_folder, new StoreOptions { KeepReadings = TimeSpan.FromDays(3650) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        using var stop = new CancellationTokenSource();
        var running = store.RunAsync(stop.Token);
        foreach (var reading in readings)
            store.Enqueue(reading);
        await store.FlushAsync(TestContext.Current.CancellationToken);
        var id = logBook ? await store.WriteAsync(LogBook, TestContext.Current.CancellationToken) : (SessionId?)null;
        await stop.CancelAsync();
        await running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        return id;
    }

    private static SessionId LogBook(StoreTransaction work)
    {
        var told = MorningOfDips.Session;
        var session = SessionTable.Start(work, told.Vat, new DateOnly(2026, 3, 6), told.Started, told.By, told.Details);
        foreach (var entry in MorningOfDips.Entries.Where(entry => entry.Withdrawn is null))
            EntryTable.Write(work, new EntryDraft(entry.Vat, entry.Kind, entry.By) { Material = entry.Material, Amount = entry.Amount, Text = entry.Text }, session.Id, entry.At);
        SessionTable.End(work, told.Vat, session.Id, told.Ended!.Value);
        return session.Id;
    }
}
