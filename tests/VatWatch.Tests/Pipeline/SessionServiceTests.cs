using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Conditions;
using VatWatch.Pipeline;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline;

public sealed class SessionServiceTests : IAsyncLifetime
{
    private readonly StoreRig _rig = StoreRig.Start();
    private readonly FakeTimeProvider _time = new(StoreRig.Dusk);
    private readonly List<VatAct> _acts = [];
    private readonly List<SessionChange> _changes = [];
    private readonly SessionService _desk;

    public SessionServiceTests() => _desk = new SessionService(
        _rig.Store,
        new Dictionary<VatId, double> { [StoreRig.Madder] = 150, [StoreRig.Weld] = 60 },
        (entry, _) => _acts.AddRange(new[] { entry.Act() }.OfType<VatAct>()),
        _changes.Add,
        new WatchClock(_time),
        TimeZoneInfo.CreateCustomTimeZone("far", TimeSpan.FromHours(8), "far", "far"),
        NullLogger<SessionService>.Instance);

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public ValueTask DisposeAsync() => _rig.DisposeAsync();

    [Fact]
    public async Task More_than_the_vat_can_take_is_refused()
    {
        var outcome = await _desk.WriteAsync(new(StoreRig.Weld, EntryKind.Added, "anyone") { Material = Material.Water, Amount = 91 }, Cancel);
        Assert.Equal("The amount of water is 91 L; wanted at most 90 L, since the vat is configured with 60 L.", outcome.Refused);
        Assert.Null((await _desk.WriteAsync(new(StoreRig.Madder, EntryKind.Added, "anyone") { Material = Material.Water, Amount = 91 }, Cancel)).Refused);
    }

    [Fact]
    public async Task Photographs_are_counted_by_the_day_over_all_vats()
    {
        var at = await _rig.WriteAsync(work => Enumerable.Range(0, Photo.MostADay)
            .Select(_ => EntryTable.Write(work, new(StoreRig.Weld, EntryKind.Photo, "anyone") { Photo = new([1]) }, null, new(StoreRig.Dusk, TimeSpan.Zero, true))).ToList()[0].At.Utc);

        Assert.StartsWith("200 photographs were kept within a day", (await PhotographAsync()).Refused, StringComparison.Ordinal);
        _time.SetUtcNow(at + TimeSpan.FromHours(25));
        Assert.Null((await PhotographAsync()).Refused);
    }

    private Task<SessionOutcome> PhotographAsync() => _desk.WriteAsync(new(StoreRig.Madder, EntryKind.Photo, "anyone") { Photo = new([1, 2]) }, Cancel);

    [Fact]
    public async Task The_first_dip_begins_a_session_named_by_the_local_day()
    {
        var outcome = await Write(EntryKind.DipIn);
        Assert.Equal("2031-03-15", outcome.Session!.Id.Value);
        Assert.Equal(VatActKind.Dip, Assert.Single(_acts).Kind);
        Assert.Single(_changes);
    }

    [Fact]
    public async Task A_session_ends_only_with_the_yarn_out()
    {
        await Write(EntryKind.DipIn);
        Assert.Contains("Dip out first", (await _desk.EndAsync(StoreRig.Madder, "anyone", Cancel)).Refused, StringComparison.Ordinal);
        await Write(EntryKind.DipOut);
        var ended = await _desk.EndAsync(StoreRig.Madder, "anyone", Cancel);
        Assert.Equal((null, false), (ended.Refused, ended.Session!.IsOpen));
    }

    [Fact]
    public async Task A_slip_that_is_withdrawn_frees_the_way()
    {
        var slip = await Write(EntryKind.DipIn);
        Assert.NotNull((await Write(EntryKind.DipIn)).Refused);
        await _desk.WithdrawAsync(StoreRig.Madder, slip.Entry!.Id, "anyone", Cancel);
        Assert.Null((await Write(EntryKind.DipIn)).Refused);
    }

    [Fact]
    public async Task A_heater_that_is_switched_on_has_the_next_such_time_and_belongs_to_no_session()
    {
        var outcome = await _desk.WriteAsync(new EntryDraft(StoreRig.Madder, EntryKind.HeaterOn, "anyone") { ReadyAt = new(7, 30) }, Cancel);
        var readyBy = outcome.Entry!.ReadyBy!.Value;
        Assert.Null(outcome.Session);
        Assert.Equal(new TimeOnly(23, 30), TimeOnly.FromDateTime(readyBy.UtcDateTime));
        Assert.InRange(readyBy - StoreRig.Dusk, TimeSpan.Zero, TimeSpan.FromDays(1));
        Assert.Equal((VatActKind.HeaterOn, readyBy), (Assert.Single(_acts).Kind, _acts[0].ReadyBy));
        Assert.Equal([outcome.Entry], [_rig.Read(reader => EntryTable.Newest(reader, StoreRig.Madder, StoreRig.Dusk.AddHours(-1), EntryKind.HeaterOn, EntryKind.HeaterOff))]);
    }

    [Fact]
    public async Task A_heater_entry_that_was_a_slip_ends_what_was_expected()
    {
        var slip = await Write(EntryKind.HeaterOn);
        await _desk.WithdrawAsync(StoreRig.Madder, slip.Entry!.Id, "anyone", Cancel);
        Assert.Equal([VatActKind.HeaterOn, VatActKind.HeaterOff], _acts.Select(act => act.Kind));
        Assert.Null(_rig.Read(reader => EntryTable.Newest(reader, StoreRig.Madder, StoreRig.Dusk.AddHours(-1), EntryKind.HeaterOn, EntryKind.HeaterOff)));
        Assert.Contains("Only a heater that is switched on", (await _desk.WriteAsync(new EntryDraft(StoreRig.Madder, EntryKind.HeaterOff, "anyone") { ReadyAt = new(7, 30) }, Cancel)).Refused, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_addition_in_the_evening_stands_alone()
    {
        var outcome = await _desk.WriteAsync(new(StoreRig.Madder, EntryKind.Added, "anyone") { Material = Material.ReducingAgent, Amount = 20 }, Cancel);
        Assert.Equal((null, null), (outcome.Refused, outcome.Session));
        Assert.Equal(VatActKind.Addition, Assert.Single(_acts).Kind);
    }

    [Fact]
    public async Task A_session_that_was_forgotten_ends_at_its_last_entry_and_the_next_begins()
    {
        var first = await Write(EntryKind.DipIn);
        await Write(EntryKind.DipOut);
        var last = _time.GetUtcNow();
        _time.Advance(TimeSpan.FromHours(17));
        var second = await Write(EntryKind.DipIn);

        Assert.NotEqual(first.Session!.Id, second.Session!.Id);
        Assert.Equal(last, _rig.Read(reader => SessionTable.Find(reader, StoreRig.Madder, first.Session.Id))!.Ended);
    }

    [Fact]
    public async Task Two_taps_at_once_make_one_dip()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Write(EntryKind.DipIn)));
        Assert.Single(outcomes, outcome => outcome.Refused is null);
    }

    [Fact]
    public async Task What_cannot_be_is_refused_and_nothing_is_told()
    {
        Assert.Contains("no vat 'elsewhere'", (await _desk.StartAsync(new("elsewhere"), "anyone", SessionDetails.None, Cancel)).Refused, StringComparison.Ordinal);
        Assert.Contains("name has 0", (await _desk.StartAsync(StoreRig.Madder, " ", SessionDetails.None, Cancel)).Refused, StringComparison.Ordinal);
        Assert.Contains("No session is open", (await _desk.EndAsync(StoreRig.Madder, "anyone", Cancel)).Refused, StringComparison.Ordinal);
        Assert.Contains("no session 2031-01-01", (await _desk.DescribeAsync(StoreRig.Madder, new("2031-01-01"), SessionDetails.None, Cancel)).Refused, StringComparison.Ordinal);
        Assert.Contains("does not stand", (await _desk.WithdrawAsync(StoreRig.Madder, 7, "anyone", Cancel)).Refused, StringComparison.Ordinal);
        Assert.Empty(_acts);
        Assert.Empty(_changes);
    }

    [Fact]
    public async Task A_second_session_of_one_vat_waits_for_the_end_of_the_first()
    {
        await _desk.StartAsync(StoreRig.Madder, "anyone", SessionDetails.None, Cancel);
        Assert.Contains("is open", (await _desk.StartAsync(StoreRig.Madder, "anyone", SessionDetails.None, Cancel)).Refused, StringComparison.Ordinal);
        Assert.Null((await _desk.StartAsync(StoreRig.Weld, "anyone", SessionDetails.None, Cancel)).Refused);
    }

    [Fact]
    public async Task What_is_written_down_later_stands_at_its_own_time_and_a_dip_brings_the_session_forward()
    {
        await _desk.StartAsync(StoreRig.Madder, "anyone", SessionDetails.None, Cancel);
        var now = _time.GetUtcNow();
        var stir = await _desk.WriteAsync(new(StoreRig.Madder, EntryKind.Stirred, "anyone") { At = now.AddMinutes(-30) }, Cancel);
        var dip = await _desk.WriteAsync(new(StoreRig.Madder, EntryKind.DipIn, "anyone") { At = now.AddMinutes(-10) }, Cancel);
        var tooEarly = await _desk.WriteAsync(new(StoreRig.Madder, EntryKind.DipOut, "anyone") { At = now.AddMinutes(-11) }, Cancel);

        Assert.Equal((now.AddMinutes(-30), null), (stir.Entry!.At.Utc, stir.Session));
        Assert.Equal((now.AddMinutes(-10), now.AddMinutes(-10)), (dip.Entry!.At.Utc, dip.Session!.Started.Utc));
        Assert.Equal(dip.Entry.At, _acts[^1].At);
        Assert.Contains("went in later than that", tooEarly.Refused, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_tap_that_is_sent_again_is_written_once_and_gets_the_same_answer()
    {
        var draft = new EntryDraft(StoreRig.Madder, EntryKind.DipIn, "anyone") { Tap = "a1" };
        var first = await _desk.WriteAsync(draft, Cancel);
        await Write(EntryKind.DipOut);
        var again = await _desk.WriteAsync(draft, Cancel);

        Assert.Equal((null, first.Entry!.Id, first.Session!.Id), (again.Refused, again.Entry!.Id, again.Session!.Id));
        Assert.Equal(2, _acts.Count);
    }

    [Fact]
    public async Task Yarn_that_did_not_go_in_did_not_come_out()
    {
        var slip = await Write(EntryKind.DipIn);
        await Write(EntryKind.DipOut);
        await Write(EntryKind.DipIn);
        await _desk.WithdrawAsync(StoreRig.Madder, slip.Entry!.Id, "anyone", Cancel);

        var entries = _rig.Read(reader => EntryTable.Of(reader, StoreRig.Madder, slip.Session!.Id));
        Assert.Equal([true, true, false], entries.Select(entry => entry.Withdrawn is not null));
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private Task<SessionOutcome> Write(EntryKind kind) => _desk.WriteAsync(new(StoreRig.Madder, kind, "anyone"), Cancel);
}
