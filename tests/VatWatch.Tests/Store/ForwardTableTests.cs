using VatWatch.Store;

namespace VatWatch.Tests.Store;

public sealed class ForwardTableTests
{
    [Fact]
    public async Task Each_server_has_its_own_place()
    {
        await using var rig = StoreRig.Start();
        var (first, second) = (new ForwardPlace(new(long.MaxValue, 3), 4, 5), ForwardPlace.Beginning);
        await rig.WriteAsync(work =>
        {
            ForwardTable.Save(work, "a", ForwardPlace.Beginning);
            ForwardTable.Save(work, "a", first);
            ForwardTable.Save(work, "b", second);
            return 0;
        });
        Assert.Equal((first, second, null), rig.Read(reader => (ForwardTable.Place(reader, "a"), ForwardTable.Place(reader, "b"), ForwardTable.Place(reader, "c"))));
    }

    [Fact]
    public async Task A_refused_point_is_kept_with_its_reason()
    {
        await using var rig = StoreRig.Start();
        var point = new RefusedPoint(StoreRig.Dusk, "it answered 422", "vat_reading value=1 2");
        await rig.WriteAsync(work =>
        {
            ForwardTable.AddRefused(work, "a", point);
            return 0;
        });
        Assert.Equal([point], rig.Read(reader => ForwardTable.Refused(reader, "a")));
        Assert.Empty(rig.Read(reader => ForwardTable.Refused(reader, "b")));
    }

    [Fact]
    public async Task A_cursor_at_a_moment_leaves_out_what_is_before_it_and_meets_what_is_filed_late_after_it()
    {
        await using var rig = StoreRig.Start();
        await rig.OfferAsync(StoreRig.Reading(1), StoreRig.Reading(10), StoreRig.Reading(20));
        await rig.OfferAsync(StoreRig.Reading(5));
        var (rows, next) = rig.Read(reader => reader.RowsAfter(reader.CursorAt(StoreRig.Dusk.AddSeconds(10)), 10));
        Assert.Equal([StoreRig.Reading(10), StoreRig.Reading(20)], rows.Select(row => row.Measurement));
        await rig.OfferAsync(StoreRig.Reading(7), StoreRig.Reading(30));
        Assert.Equal(2, rig.Read(reader => reader.CountAfter(next, 100)));
        Assert.Equal([StoreRig.Reading(7), StoreRig.Reading(30)], rig.Read(reader => reader.RowsAfter(next, 10).Rows.Select(row => row.Measurement).ToList()));
    }
}
