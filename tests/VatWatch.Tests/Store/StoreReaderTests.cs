using VatWatch.Measurements;
using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store;

public sealed class StoreReaderTests
{
    [Fact]
    public async Task Measurements_are_those_of_the_vat_from_the_start_up_to_but_not_at_the_end()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(0), Reading(1), Reading(1, vat: Weld), Reading(2), Reading(3));
        Assert.Equal([Reading(1), Reading(2)], rig.Read(reader => reader.Measurements(Madder, Dusk.AddSeconds(1), Dusk.AddSeconds(3)).ToList()));
    }

    [Fact]
    public async Task Latest_finds_the_newest_of_every_probe_also_of_one_silent_for_weeks()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(0, 1, "lost"), Reading(60, 2, "lost"), Reading(61, 3, "elsewhere", Weld));
        await rig.OfferAsync(Enumerable.Range(0, 5000).Select(n => Reading(2_000_000 + n)));

        Assert.Equal(
            [Reading(60, 2, "lost"), Reading(61, 3, "elsewhere", Weld), Reading(2_004_999)],
            rig.Read(reader => reader.Latest()));
    }

    [Fact]
    public async Task Span_and_last_label_are_those_of_the_readings()
    {
        await using var rig = Start();
        Assert.Null(rig.Read(reader => reader.Span(Madder)));
        Assert.Null(rig.Read(reader => reader.LastUtc()));
        Assert.Empty(rig.Read(reader => reader.Latest()));
        await rig.OfferAsync(Reading(-5, vat: Weld));
        Assert.Null(rig.Read(reader => reader.Span(Madder)));
        await rig.OfferAsync(Reading(20, probe: "a"), Reading(10, probe: "b"), Reading(4000, probe: "b"), Reading(4001, probe: "a"), Reading(9000, vat: Weld));

        Assert.Equal((Dusk.AddSeconds(10), Dusk.AddSeconds(4001)), rig.Read(reader => reader.Span(Madder)));
        Assert.Equal(Dusk.AddSeconds(9000), rig.Read(reader => reader.LastUtc()));
    }

    [Fact]
    public async Task A_follower_gets_every_reading_once_whatever_the_clock_does()
    {
        await using var rig = Start();
        var random = new Random(7);
        var cursor = StoreCursor.Beginning;
        List<Measurement> offered = [];
        List<Measurement> followed = [];
        for (var round = 0; round < 60; round++)
        {
            // Now and then the clock is set back or forward by up to an hour.
            var start = round * 60 + (random.Next(4) == 0 ? random.Next(-3600, 3600) : 0);
            var batch = Enumerable.Range(0, random.Next(1, 30)).Select(n => Reading(start + n, offered.Count + n)).ToList();
            await rig.OfferAsync(batch);
            offered.AddRange(batch);
            var (rows, next) = rig.Read(reader => reader.After(cursor, random.Next(1, 40)));
            followed.AddRange(rows);
            cursor = next;
        }

        while (rig.Read(reader => reader.After(cursor, 7)) is var (rows, next) && rows.Count > 0)
        {
            followed.AddRange(rows);
            cursor = next;
        }

        Assert.Equal(offered.Select(m => m.Value).Order(), followed.Select(m => m.Value).Order());
        Assert.Equal(cursor, rig.Read(reader => reader.After(cursor, 7)).Next);
    }

    [Fact]
    public async Task A_reader_of_the_folder_sees_the_commits_of_the_daemon_that_writes()
    {
        await using var rig = Start();
        using var reader = StoreReader.OpenFolder(rig.Folder);
        Assert.Empty(reader.Measurements(Madder, Dusk, Dusk.AddDays(1)));
        await rig.OfferAsync(Reading(1));
        Assert.Equal([Reading(1)], reader.Measurements(Madder, Dusk, Dusk.AddDays(1)));
    }

    [Fact]
    public void A_folder_without_a_store_is_refused_in_a_sentence()
    {
        var refused = Assert.Throws<StoreUnavailableException>(() => StoreReader.OpenFolder(Path.Combine(Path.GetTempPath(), "no such folder")));
        Assert.Contains("there is no vatwatch.db", refused.Message, StringComparison.Ordinal);
    }
}
