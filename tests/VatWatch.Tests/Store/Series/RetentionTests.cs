using VatWatch.Measurements;
using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Series;

public sealed class RetentionTests
{
    private static readonly StoreOptions TenDays = new() { KeepReadings = TimeSpan.FromDays(10) };

    private static IEnumerable<Measurement> Day(int day, int every = 600) =>
        Enumerable.Range(0, 86_400 / every).Select(n => Reading(day * 86_400.0 + n * every));

    [Fact]
    public async Task Readings_older_than_asked_for_go_and_their_rollups_stay()
    {
        await using var rig = Start(TenDays);
        for (var day = 0; day < 30; day++)
        {
            await rig.OfferAsync(Day(day));
        }

        var kept = rig.All();
        Assert.Equal(Dusk.AddDays(30).AddMinutes(-10).AddDays(-10), kept[0].Stamp.Utc);
        Assert.Equal(Day(29), kept[^144..]);
        Assert.Equal(30 * 144, rig.Read(reader => reader.Rollups(new("madder-lane"), new("liquor"), Dusk, Dusk.AddDays(30), quarters: false)).Count);
        Assert.Equal(kept[0].Stamp.Utc, rig.Read(reader => reader.Span(Madder))!.Value.First);
        Assert.Empty(rig.Read(reader => reader.Verify()));
    }

    [Fact]
    public async Task A_clock_that_leaps_years_ahead_costs_nothing()
    {
        await using var rig = Start(TenDays);
        for (var day = 0; day < 9; day++)
        {
            await rig.OfferAsync(Day(day));
        }

        var before = rig.All().Count;
        await rig.OfferAsync(Enumerable.Range(0, 10).Select(n => Reading(1e9 + n)));
        Assert.Equal(before + 10, rig.All().Count);
    }

    [Fact]
    public async Task One_that_stays_there_costs_no_more_than_twice_what_it_adds()
    {
        await using var rig = Start(TenDays);
        for (var day = 0; day < 9; day++)
        {
            await rig.OfferAsync(Day(day));
        }

        await rig.OfferAsync(Reading(1e9));
        var before = rig.All().Count;
        await rig.OfferAsync(Enumerable.Range(0, 10).Select(n => Reading(1e9 + 6 * 86_400 + n)));
        Assert.Equal(before + 10 - 20, rig.All().Count);
    }

    [Fact]
    public async Task A_minute_of_which_some_have_gone_is_no_fault_beside_readings_with_an_older_label_that_stay()
    {
        await using var rig = Start(TenDays);
        await rig.OfferAsync(Enumerable.Range(0, 100).Select(n => Reading(n)));
        await rig.OfferAsync(Enumerable.Range(0, 10).Select(n => Reading(-1e8 + n) is var m ? m with { Stamp = m.Stamp with { UtcTrusted = false } } : m));
        await rig.OfferAsync(Reading(4 * 86_400));
        await rig.OfferAsync(Enumerable.Range(0, 20).Select(n => Reading(10 * 86_400 + 100 + n)));

        Assert.Equal(100 - 40 + 10 + 1 + 20, rig.All().Count);
        Assert.Empty(rig.Read(reader => reader.Verify()));
    }

    [Fact]
    public async Task A_label_that_was_not_trusted_makes_nothing_old()
    {
        await using var rig = Start(TenDays);
        await rig.OfferAsync(Day(0));
        await rig.OfferAsync(Enumerable.Range(0, 100).Select(n => Reading(1e9 + n) is var m ? m with { Stamp = m.Stamp with { UtcTrusted = false } } : m));
        Assert.Equal(244, rig.All().Count);
    }

    [Fact]
    public async Task Past_its_size_the_store_gives_up_the_oldest_but_never_the_last_week()
    {
        // The limit is far below what a week takes, so only the week's guard stands.
        await using var rig = Start(new() { SizeLimitMegabytes = 1, KeepReadings = TimeSpan.FromDays(3650) });
        for (var day = 0; day < 20; day++)
        {
            await rig.OfferAsync(Day(day, every: 30));
        }

        var kept = rig.All();
        Assert.Equal(Dusk.AddDays(20).AddSeconds(-30).AddDays(-7), kept[0].Stamp.Utc);
        Assert.Equal(7 * 2880 + 1, kept.Count);
    }
}
