using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Web.Drawing;

public sealed class StoredTracesTests : IAsyncLifetime
{
    private static readonly VatDefinition Vat = Scenes.Vat();
    private static readonly DateTimeOffset Now = Scenes.Start;
    private readonly string _folder = Directory.CreateTempSubdirectory("stored-chart-").FullName;
    private readonly CancellationTokenSource _stop = new();
    private readonly WatchStore _store;
    private readonly Task _writer;

    public StoredTracesTests()
    {
        _store = WatchStore.Open(_folder, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
        _writer = _store.RunAsync(_stop.Token);
    }

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _writer.ContinueWith(static _ => { }, TaskScheduler.Default);
        await _store.DisposeAsync();
        _stop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private VatTraces Read(ChartRange range, int columns)
    {
        using var reader = _store.OpenReader();
        return new StoredTraces(reader, Vat, DisplayUnits.Us, TimeZoneInfo.Utc).Read(ChartWindow.Of(range, reader, Vat.Id, Now), columns, Now);
    }

    [Fact]
    public async Task The_session_is_drawn_from_a_little_before_it_to_a_little_after_with_what_was_done_in_it()
    {
        var began = Stamp(-90);
        await _store.WriteAsync(
            work =>
            {
                var session = SessionTable.Start(work, Vat.Id, new(2026, 3, 4), began, "Ada", SessionDetails.None).Id;
                EntryTable.Write(work, new(Vat.Id, EntryKind.DipIn, "Ada"), session, Stamp(-80));
                var slip = EntryTable.Write(work, new(Vat.Id, EntryKind.DipOut, "Ada"), session, Stamp(-79));
                EntryTable.Withdraw(work, Vat.Id, slip.Id, "Ada", Stamp(-78).Utc);
                EntryTable.Write(work, new(Vat.Id, EntryKind.DipOut, "Ada"), session, Stamp(-70));
                EntryTable.Write(work, new(Vat.Id, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 100 }, session, Stamp(-60));
                SessionTable.End(work, Vat.Id, session, Stamp(-30).Utc);
                CalibrationTable.Append(work, Vat.Probes[1].Id, Stamp(-55).Utc, "{}");
                AlarmJournal.Append(work, Change(AlarmState.Normal, AlarmState.Unacknowledged, -65));
                AlarmJournal.Append(work, Change(AlarmState.Unacknowledged, AlarmState.Normal, -62));
                return 0;
            },
            TestContext.Current.CancellationToken);

        var traces = Read(ChartRange.Session, 300);

        Assert.NotNull(traces);
        Assert.Equal((Now.AddMinutes(-100), Now.AddMinutes(-20)), (traces.From, traces.To));
        Assert.Equal("I!OSC".Order(), string.Concat(traces.Marks.Select(mark => mark.Letter)).Order());
        Assert.Equal(["I", "O", "!", "S", "C"], traces.Marks.Select(mark => mark.Letter));
        Assert.Equal("added 3.53 oz of soda ash, by Ada", traces.Marks[3].Text);
        Assert.Equal(Now.AddMinutes(-62), traces.Marks[2].Until);
    }

    [Fact]
    public async Task A_silence_breaks_the_trace_and_a_spike_is_kept_however_wide_the_columns()
    {
        for (var second = 0; second < 3600; second += 5)
        {
            if (second is < 1200 or > 1500)
            {
                var value = second == 2400 ? 48.9 : 40.0;
                var stamp = Stamp(-60).Plus(TimeSpan.FromSeconds(second));
                _store.Enqueue(new(Vat.Id, Vat.Probes[0].Id, Quantity.Temperature, stamp, value, value, Quality.Good, null, null));
            }
        }

        await _store.FlushAsync(TestContext.Current.CancellationToken);

        var traces = Read(ChartRange.Last(1), 60);

        var columns = traces.Traces[0].Columns;
        Assert.InRange(columns.Count, 50, 61);
        Assert.Equal(48.9, columns.Max(column => column.Max));
        Assert.Single(columns, column => column.BreakBefore);
        Assert.Empty(traces.Traces[1].Columns);
    }

    [Fact]
    public void Without_a_session_the_last_hours_are_drawn()
    {
        var traces = Read(ChartRange.Session, 300);
        Assert.Equal((Now.AddHours(-8), Now), (traces.From, traces.To));
    }

    private static Stamp Stamp(int minutes) => new(Now.AddMinutes(minutes), TimeSpan.FromHours(3) + TimeSpan.FromMinutes(minutes), true);

    private static AlarmChange Change(AlarmState before, AlarmState after, int minutes) => new(
        before,
        new() { Alarm = new("redox-rising"), Vat = Vat.Id, State = after, Priority = AlarmPriority.High, Since = Stamp(minutes), Text = "ORP rises.", Action = "Look at the lid." },
        Stamp(minutes),
        null,
        true);
}
