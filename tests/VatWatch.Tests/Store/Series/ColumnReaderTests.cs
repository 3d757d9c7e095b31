using VatWatch.Measurements;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Series;

public sealed class ColumnReaderTests
{
    private static readonly TimeSpan Gap = TimeSpan.FromSeconds(60);

    /// <summary>The same stretch drawn from readings, from minute rollups and from quarter-hour rollups, against what the readings say.</summary>
    [Theory]
    [InlineData(1.5, 500)]
    [InlineData(7, 100)]
    [InlineData(70, 97)]
    [InlineData(70, 1)]
    public async Task Columns_hold_what_the_readings_of_their_time_hold(double hours, int columns)
    {
        await using var rig = Start();
        var readings = Readings(hours + 1);
        await rig.OfferAsync(readings);
        await rig.OfferAsync(Reading(100, 999, "other"), Reading(200, 999, vat: Weld));
        var (from, to) = (Dusk.AddSeconds(1234.5), Dusk.AddSeconds(1234.5).AddHours(hours));

        var drawn = rig.Read(reader => reader.Columns(Madder, new("liquor"), from, to, columns, Gap));

        var inside = readings.Where(m => m.Stamp.Utc >= from && m.Stamp.Utc < to && m.Value is not null).ToList();
        Assert.InRange(drawn.Count, Math.Min(columns, 80) * 2 / 5, columns + 1);
        Assert.Equal(inside.Count, drawn.Sum(column => column.Count));
        Assert.All(drawn, column =>
        {
            var own = inside.Where(m => m.Stamp.Utc >= column.Start && m.Stamp.Utc < column.End).Select(m => m.Value!.Value).ToList();
            Assert.Equal((own.Count, own[0], own[^1], own.Min(), own.Max()), ((int)column.Count, column.First, column.Last, column.Min, column.Max));
            Assert.Equal(own.Average(), column.Mean, 1e-9);
        });
        Assert.All(drawn.Zip(drawn.Skip(1)), pair => Assert.True(pair.First.End <= pair.Second.Start));
    }

    [Fact]
    public async Task A_spike_of_one_reading_in_a_week_is_in_the_picture()
    {
        await using var rig = Start();
        await rig.OfferAsync(Enumerable.Range(0, 7 * 24 * 60).Select(minute => Reading(minute * 60, minute == 5000 ? 71.5 : 40)));
        var drawn = rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk.AddDays(7), 300, TimeSpan.FromMinutes(3)));
        Assert.Equal(71.5, Assert.Single(drawn, column => column.Max > 40).Max);
        Assert.DoesNotContain(drawn, column => column.BreakBefore);
    }

    [Theory]
    [InlineData(1, 400)] // readings
    [InlineData(10, 200)] // minutes
    [InlineData(100, 100)] // quarter hours
    public async Task The_trace_is_broken_where_values_are_missing_for_longer_than_the_gap(double hours, int columns)
    {
        await using var rig = Start();
        var (silentFrom, silentTo) = (hours * 3600 * 0.4, hours * 3600 * 0.6);
        await rig.OfferAsync(Enumerable.Range(0, (int)(hours * 240)).Select(n => n * 15.0).Where(second => second < silentFrom || second > silentTo).Select(second => Reading(second)));
        await rig.OfferAsync(Reading(hours * 1800, null), Reading(hours * 1800 + 5, null));

        var drawn = rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk.AddHours(hours), columns, Gap));

        var after = Assert.Single(drawn, column => column.BreakBefore);
        Assert.InRange(Dusk.AddSeconds(silentTo), after.Start.AddSeconds(-30), after.End);
    }

    [Theory]
    [InlineData(1, 400)] // readings
    [InlineData(100, 100)] // quarter hours
    public async Task Probes_read_together_are_as_read_alone_each_with_its_gap(double hours, int columns)
    {
        await using var rig = Start();
        await rig.OfferAsync(Enumerable.Range(0, (int)(hours * 30)).SelectMany(n => new[] { Reading(n * 120, 40 + n % 9), Reading(n * 120 + 1, n % 5, "other"), Reading(n * 120 + 2, 7, vat: Weld) }));
        await rig.OfferAsync(Enumerable.Range((int)(hours * 60), 5).SelectMany(n => new[] { Reading(n * 120, 40), Reading(n * 120 + 1, 3, "other") }));
        var (from, to) = (Dusk.AddSeconds(77), Dusk.AddHours(2.5 * hours));
        TimeSpan GapOf(ProbeId probe) => probe.Value == "other" ? TimeSpan.FromHours(2 * hours) : TimeSpan.FromMinutes(10);

        var together = rig.Read(reader => reader.Columns(Madder, from, to, columns, GapOf));

        Assert.Equal(["liquor", "other"], together.Keys.Select(probe => probe.Value).Order());
        Assert.All(together, one => Assert.Equal(rig.Read(reader => reader.Columns(Madder, one.Key, from, to, columns, GapOf(one.Key))), one.Value));
        Assert.Single(together[new("liquor")], column => column.BreakBefore);
        Assert.DoesNotContain(together[new("other")], column => column.BreakBefore);
    }

    [Fact]
    public async Task A_stretch_without_values_has_no_columns()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(10, null));
        Assert.Empty(rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk.AddHours(1), 10, Gap)));
        Assert.Empty(rig.Read(reader => reader.Columns(Madder, new("nobody"), Dusk, Dusk.AddHours(1), 10, Gap)));
        Assert.Empty(rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk, 10, Gap)));
    }

    private static List<Measurement> Readings(double hours)
    {
        var random = new Random(3);
        return [.. Enumerable.Range(0, (int)(hours * 240)).Select(n => Reading(n * 15 + random.Next(1000) / 1000.0, random.Next(20) == 0 ? null : Math.Round(40 + random.NextDouble(), 2)))];
    }
}
