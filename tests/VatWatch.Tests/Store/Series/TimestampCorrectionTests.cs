using VatWatch.Measurements;
using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Series;

public sealed class TimestampCorrectionTests
{
    private static readonly DateTimeOffset Nineteen70 = new(1970, 1, 1, 0, 0, 7, TimeSpan.Zero);

    /// <summary>A board without a battery: it thinks that it is 1970 until, 600 s after its start, the network tells the time.</summary>
    private static List<Measurement> Night() => [.. Enumerable.Range(0, 120).Select(n => n * 10).Select(second => Reading(second, 40 + second / 100.0) with
    {
        Stamp = second < 600
            ? new Stamp(Nineteen70.AddSeconds(second), TimeSpan.FromSeconds(second), UtcTrusted: false)
            : new Stamp(Dusk.AddSeconds(second), TimeSpan.FromSeconds(second), UtcTrusted: true),
    })];

    [Fact]
    public async Task Readings_of_a_start_in_1970_get_the_right_label_once_the_run_knows_the_time()
    {
        await using var rig = Start();
        var night = Night();
        await rig.OfferAsync(night[..60]);
        Assert.Equal(night[..60], rig.All()); // not known yet

        await rig.OfferAsync(night[60..]);

        var read = rig.Read(reader => reader.Measurements(Madder, Dusk, Dusk.AddDays(1)).ToList());
        Assert.Equal(Enumerable.Range(0, 120).Select(n => Dusk.AddSeconds(n * 10)), read.Select(m => m.Stamp.Utc));
        Assert.Equal(night.Select(m => (m.Value, m.Stamp.Monotonic, m.Stamp.UtcTrusted)), read.Select(m => (m.Value, m.Stamp.Monotonic, m.Stamp.UtcTrusted)));
        Assert.Empty(rig.Read(reader => reader.Measurements(Madder, Nineteen70, Nineteen70.AddDays(1)).ToList()));
    }

    [Fact]
    public async Task The_rows_themselves_are_never_altered()
    {
        await using var rig = Start();
        var night = Night();
        await rig.OfferAsync(night[..60]);
        var before = rig.Read(reader => reader.Sql.Query("SELECT id, circumstance, skew FROM measurement", row => (row.GetInt64(0), row.GetInt64(1), row.GetInt64(2))));
        await rig.OfferAsync(night[60..]);
        var after = rig.Read(reader => reader.Sql.Query("SELECT id, circumstance, skew FROM measurement", row => (row.GetInt64(0), row.GetInt64(1), row.GetInt64(2))));
        Assert.Equal(before, after[..before.Count]);
    }

    [Theory]
    [InlineData(120)] // readings
    [InlineData(5)] // minutes
    public async Task A_chart_shows_them_at_their_right_time(int columns)
    {
        await using var rig = Start();
        await rig.OfferAsync(Night());
        var drawn = rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk.AddSeconds(1200), columns, TimeSpan.FromSeconds(30)));
        Assert.Equal(120, drawn.Sum(column => column.Count));
        Assert.Equal(40, drawn[0].First);
        Assert.DoesNotContain(drawn, column => column.BreakBefore);
    }

    [Fact]
    public async Task Retention_does_not_take_1970_for_an_age()
    {
        await using var rig = Start(new StoreOptions { KeepReadings = TimeSpan.FromDays(10) });
        var night = Night();
        await rig.OfferAsync(night[..60]);
        await rig.OfferAsync(night[60..]);
        await rig.OfferAsync(Reading(5000));
        Assert.Equal(121, rig.All().Count);

        // Eleven days later, in the same run, they are of the age to go only when the run they belong to is.
        await rig.OfferAsync(Reading(3 * 86_400));
        await rig.OfferAsync(Enumerable.Range(0, 400).Select(n => Reading(11 * 86_400 + n)));
        Assert.Equal(461, rig.All().Count);
    }

    [Fact]
    public async Task A_run_that_never_learns_the_time_keeps_its_labels()
    {
        await using var rig = Start();
        var night = Night()[..60];
        await rig.OfferAsync(night);
        Assert.Equal(night, rig.All());
    }

    [Fact]
    public async Task A_clock_that_falls_back_to_1970_in_the_middle_of_a_run_is_put_right_from_what_it_knew()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(0), Reading(10));
        await rig.OfferAsync(Reading(20) with { Stamp = new Stamp(Nineteen70, TimeSpan.FromSeconds(20), UtcTrusted: false) });
        Assert.Equal([Dusk, Dusk.AddSeconds(10), Dusk.AddSeconds(20)], rig.All().Select(m => m.Stamp.Utc));
    }
}
