using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Sessions;

public sealed class SessionMendingTests : IAsyncLifetime
{
    private static readonly VatId Vat = StoreRig.Madder;
    private static readonly Stamp Now = new(StoreRig.Dusk.AddHours(9), TimeSpan.FromHours(9), true);
    private readonly StoreRig _rig = StoreRig.Start();

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public ValueTask DisposeAsync() => _rig.DisposeAsync();

    [Fact]
    public async Task Two_sessions_become_one_with_the_name_of_the_earlier_and_all_that_was_written()
    {
        var (first, second) = (await SessionAsync(0, 1, new(900, null, "sky", null)), await SessionAsync(2, 3, new(500, Fibre.Cellulose, "navy", Verdict.Good)));

        var (joined, whyNot) = await JoinAsync(second, first);

        Assert.Null(whyNot);
        Assert.Equal((first, StoreRig.Dusk, StoreRig.Dusk.AddHours(3)), (joined!.Id, joined.Started.Utc, joined.Ended));
        Assert.Equal(new SessionDetails(900, Fibre.Cellulose, "sky", Verdict.Good), joined.Details);
        Assert.Null(_rig.Read(reader => SessionTable.Find(reader, Vat, second)));
        var entries = _rig.Read(reader => EntryTable.Of(reader, Vat, first));
        Assert.Equal(2, SessionTally.Of(entries).Dips.Count);
        Assert.Equal((EntryKind.Note, $"session {second} (navy, 500 g, came out good) was joined to this one", "Ada"), (entries[^1].Kind, entries[^1].Text, entries[^1].By));
    }

    [Fact]
    public async Task One_that_goes_on_still_goes_on()
    {
        var (first, second) = (await SessionAsync(0, 1), await SessionAsync(2, null));
        Assert.True((await JoinAsync(first, second)).Session!.IsOpen);
    }

    [Fact]
    public async Task What_does_not_follow_or_is_not_there_is_not_joined()
    {
        var ids = new[] { await SessionAsync(0, 1), await SessionAsync(2, 3), await SessionAsync(4, 5) };
        Assert.Contains($"Session {ids[1]} lies between", (await JoinAsync(ids[0], ids[2])).WhyNot, StringComparison.Ordinal);
        Assert.Contains("to itself", (await JoinAsync(ids[0], ids[0])).WhyNot, StringComparison.Ordinal);
        Assert.Contains("not in the log book", (await JoinAsync(ids[0], new("2031-01-01"))).WhyNot, StringComparison.Ordinal);
        Assert.Equal(3, _rig.Read(reader => SessionTable.Newest(reader, Vat, 10)).Count);
    }

    [Fact]
    public async Task A_session_that_was_none_leaves_the_book_its_additions_and_takes_its_dips_back()
    {
        var id = await SessionAsync(0, 1, SessionDetails.None with { Shade = "slip" });

        Assert.Null(await _rig.Store.WriteAsync(work => SessionMending.TakeOut(work, Vat, id, "Ada", Now), TestContext.Current.CancellationToken));

        Assert.Null(_rig.Read(reader => SessionTable.Find(reader, Vat, id)));
        var left = _rig.Read(reader => EntryTable.Between(reader, Vat, StoreRig.Dusk.AddDays(-1), StoreRig.Dusk.AddDays(1)));
        Assert.All(left, entry => Assert.Null(entry.Session));
        Assert.Equal([EntryKind.Added, EntryKind.Note], left.Where(entry => entry.Withdrawn is null).Select(entry => entry.Kind));
        Assert.Equal($"session {id} (slip) was taken out of the log book", left[^1].Text);
        Assert.NotNull(await _rig.Store.WriteAsync(work => SessionMending.TakeOut(work, Vat, id, "Ada", Now), TestContext.Current.CancellationToken));
        Assert.Equal(id, await SessionAsync(6, 7));
        Assert.Equal(3, _rig.Read(reader => EntryTable.Of(reader, Vat, id)).Count);
    }

    [Fact]
    public async Task What_was_joined_is_taken_apart_again()
    {
        var (first, second) = (await SessionAsync(0, 1, new(900, Fibre.Cellulose, "sky", null)), await SessionAsync(2, 3));
        await JoinAsync(first, second);
        var dips = _rig.Read(reader => EntryTable.Of(reader, Vat, first)).Where(entry => entry.Kind == EntryKind.DipIn).Select(entry => entry.Id).ToList();

        Assert.Contains("begins with that dip", (await ApartAsync(first, dips[0])).WhyNot, StringComparison.Ordinal);
        Assert.Contains("does not stand", (await ApartAsync(first, 999)).WhyNot, StringComparison.Ordinal);
        var (parted, whyNot) = await ApartAsync(first, dips[1]);

        Assert.Null(whyNot);
        Assert.Equal((second, StoreRig.Dusk.AddHours(2.1), StoreRig.Dusk.AddHours(3)), (parted!.Id, parted.Started.Utc, parted.Ended));
        Assert.Equal(SessionDetails.None with { Fibre = Fibre.Cellulose }, parted.Details);
        var left = _rig.Read(reader => SessionTable.Find(reader, Vat, first))!;
        Assert.Equal((StoreRig.Dusk.AddHours(0.3), "sky"), (left.Ended, left.Details.Shade));
        Assert.Single(SessionTally.Of(_rig.Read(reader => EntryTable.Of(reader, Vat, first))).Dips);
        var entries = _rig.Read(reader => EntryTable.Of(reader, Vat, second));
        Assert.Single(SessionTally.Of(entries).Dips);
        Assert.Equal($"this session was taken apart from {first}", entries[^1].Text);
    }

    private async Task<(Session? Session, string? WhyNot)> ApartAsync(SessionId id, long dip) =>
        await _rig.Store.WriteAsync(work => (SessionMending.TakeApart(work, Vat, id, dip, "Ada", Now, TimeZoneInfo.Utc, out var whyNot), whyNot), TestContext.Current.CancellationToken);

    private async Task<(Session? Session, string? WhyNot)> JoinAsync(SessionId one, SessionId other) =>
        await _rig.Store.WriteAsync(work => (SessionMending.Join(work, Vat, one, other, "Ada", Now, out var whyNot), whyNot), TestContext.Current.CancellationToken);

    private async Task<SessionId> SessionAsync(double from, double? to, SessionDetails? details = null) => await _rig.Store.WriteAsync(
        work =>
        {
            Stamp At(double hours) => new(StoreRig.Dusk.AddHours(hours), TimeSpan.FromHours(hours), true);
            var session = SessionTable.Start(work, Vat, new(2031, 3, 14), At(from), "Ada", details ?? SessionDetails.None).Id;
            EntryTable.Write(work, new(Vat, EntryKind.DipIn, "Ada"), session, At(from + 0.1));
            EntryTable.Write(work, new(Vat, EntryKind.DipOut, "Ada"), session, At(from + 0.2));
            EntryTable.Write(work, new(Vat, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 20 }, session, At(from + 0.3));
            if (to is { } ended)
            {
                SessionTable.End(work, Vat, session, At(ended).Utc);
            }

            return session;
        },
        TestContext.Current.CancellationToken);
}
