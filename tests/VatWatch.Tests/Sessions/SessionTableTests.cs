using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Sessions;

public sealed class SessionTableTests
{
    private static readonly Stamp Dusk = new(StoreRig.Dusk, TimeSpan.FromMinutes(7), false);
    private static readonly DateOnly Day = new(2031, 3, 14);

    [Fact]
    public async Task A_session_comes_back_as_it_was_written_and_the_next_of_the_day_is_numbered()
    {
        await using var rig = StoreRig.Start();
        var details = new SessionDetails(912.5, Fibre.Cellulose, "third blue", Verdict.Good) { Wish = new(5, 20, 4) };
        var first = await rig.WriteAsync(work =>
        {
            var session = SessionTable.Start(work, StoreRig.Madder, Day, Dusk, "anyone", details);
            SessionTable.End(work, StoreRig.Madder, session.Id, Dusk.Utc.AddHours(3));
            return session;
        });
        var second = await rig.WriteAsync(work => SessionTable.Start(work, StoreRig.Madder, Day, Dusk.Plus(TimeSpan.FromHours(5)), "anyone", SessionDetails.None));
        await rig.WriteAsync(work => SessionTable.Start(work, StoreRig.Weld, Day, Dusk, "anyone", SessionDetails.None));

        Assert.Equal(("2031-03-14", "2031-03-14-2"), (first.Id.Value, second.Id.Value));
        Assert.Equal(first with { Ended = Dusk.Utc.AddHours(3) }, rig.Read(reader => SessionTable.Find(reader, StoreRig.Madder, first.Id)));
        Assert.Equal((Dusk, details), (first.Started, first.Details));
        Assert.Equal(second, rig.Read(reader => SessionTable.Open(reader, StoreRig.Madder)));
        Assert.Equal([second.Id, first.Id], rig.Read(reader => SessionTable.Newest(reader, StoreRig.Madder, 10)).Select(one => one.Id));
        Assert.Equal([first.Id], rig.Read(reader => SessionTable.Newest(reader, StoreRig.Madder, 10, before: second.Started.Utc)).Select(one => one.Id));
        Assert.Equal(first.Id, Assert.Single(rig.Read(reader => SessionTable.Newest(reader, null, 10, Verdict.Good))).Id);
    }

    [Fact]
    public async Task Entries_come_back_in_order_and_a_withdrawn_one_stays_in_the_book()
    {
        await using var rig = StoreRig.Start();
        var photo = new Photo([0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3]);
        var written = await rig.WriteAsync(work =>
        {
            var session = SessionTable.Start(work, StoreRig.Madder, Day, Dusk, "anyone", SessionDetails.None).Id;
            return new[]
            {
                EntryTable.Write(work, new(StoreRig.Madder, EntryKind.DipIn, "anyone"), session, Dusk),
                EntryTable.Write(work, new(StoreRig.Madder, EntryKind.Added, "anyone") { Material = Material.Stock, Amount = 1.5, Text = "the old jar" }, session, Dusk.Plus(TimeSpan.FromMinutes(1))),
                EntryTable.Write(work, new(StoreRig.Madder, EntryKind.Photo, "anyone") { Photo = photo }, null, Dusk.Plus(TimeSpan.FromMinutes(2))),
            };
        });
        var withdrawn = await rig.WriteAsync(work => EntryTable.Withdraw(work, StoreRig.Madder, written[0].Id, "anyone", Dusk.Utc.AddMinutes(3)));
        var again = await rig.WriteAsync(work => EntryTable.Withdraw(work, StoreRig.Madder, written[0].Id, "anyone", Dusk.Utc.AddMinutes(4)));
        var ofAnother = await rig.WriteAsync(work => EntryTable.Withdraw(work, StoreRig.Weld, written[1].Id, "anyone", Dusk.Utc.AddMinutes(4)));

        Assert.Equal(Dusk.Utc.AddMinutes(3), withdrawn!.Withdrawn);
        Assert.Null(again);
        Assert.Null(ofAnother);
        Assert.Equal([withdrawn, written[1]], rig.Read(reader => EntryTable.Of(reader, StoreRig.Madder, written[0].Session!.Value)));
        Assert.Equal([withdrawn, written[1], written[2]], rig.Read(reader => EntryTable.Between(reader, StoreRig.Madder, Dusk.Utc, Dusk.Utc.AddHours(1))));
        Assert.Equal(photo.Jpeg, rig.Read(reader => EntryTable.PhotoOf(reader, StoreRig.Madder, written[2].Id))!.Value.Bytes);
        Assert.Null(rig.Read(reader => EntryTable.PhotoOf(reader, StoreRig.Weld, written[2].Id)));
        await rig.WriteAsync(work => EntryTable.Withdraw(work, StoreRig.Madder, written[2].Id, "anyone", Dusk.Utc.AddMinutes(5)));
        Assert.Null(rig.Read(reader => EntryTable.PhotoOf(reader, StoreRig.Madder, written[2].Id)));
    }
}
