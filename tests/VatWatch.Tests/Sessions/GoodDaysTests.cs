using VatWatch.Conditions.Reduction;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;

namespace VatWatch.Tests.Sessions;

public sealed class GoodDaysTests
{
    private static readonly VatDefinition Vat = SampleVats.MadderLane();
    private static readonly DateTimeOffset Noon = new(2031, 3, 14, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void One_reading_a_minute_is_taken_when_all_three_probes_are_fresh()
    {
        var readings = Read(Steady(minutes: 30), []);
        Assert.InRange(readings.Count, 29, 30);
        Assert.All(readings, reading => Assert.Equal(new GoodReading(-705, 10, 45), reading));
    }

    [Fact]
    public void Nothing_is_taken_with_yarn_in_the_vat_and_for_20_minutes_after_it()
    {
        var entries = new[] { Entry(1, EntryKind.DipIn, 10), Entry(2, EntryKind.DipOut, 15) };
        Assert.InRange(Read(Steady(minutes: 60), entries).Count, 60 - 25 - 2, 60 - 25 + 1);
    }

    [Fact]
    public void An_addition_that_was_withdrawn_hides_nothing()
    {
        var stands = Entry(1, EntryKind.Added, 10);
        Assert.InRange(Read(Steady(minutes: 60), [stands]).Count, 60 - 20 - 2, 60 - 20 + 1);
        Assert.InRange(Read(Steady(minutes: 60), [stands with { Withdrawn = Noon }]).Count, 59, 60);
    }

    [Fact]
    public void A_vat_below_its_band_shows_nothing_of_a_good_day() => Assert.Empty(Read(Steady(minutes: 30, liquorC: 30), []));

    [Fact]
    public void A_probe_that_has_stopped_is_not_taken_for_fresh() =>
        Assert.Empty(Read(Steady(minutes: 30).Where(one => one.Quantity != Quantity.Ph || one.Stamp.Utc < Noon.AddSeconds(1)).Skip(12), []));

    private static List<GoodReading> Read(IEnumerable<Measurement> measurements, IReadOnlyCollection<SessionEntry> entries) =>
        [.. GoodDays.Readings(Vat, measurements, entries)];

    private static IEnumerable<Measurement> Steady(int minutes, double liquorC = 45)
    {
        for (var seconds = 0; seconds < minutes * 60; seconds += 5)
        {
            yield return One("liquor", Quantity.Temperature, liquorC, seconds);
            yield return One("liquor-ph", Quantity.Ph, 10, seconds);
            yield return One("liquor-orp", Quantity.Orp, -705, seconds);
        }
    }

    private static Measurement One(string probe, Quantity measures, double value, double seconds) => new(
        Vat.Id, new ProbeId(probe), measures, At(seconds / 60), value, value, Quality.Good, null, null);

    private static SessionEntry Entry(long id, EntryKind kind, double minutes) => new() { Id = id, Vat = Vat.Id, Kind = kind, At = At(minutes), By = "anyone" };

    private static Stamp At(double minutes) => new(Noon.AddMinutes(minutes), TimeSpan.FromMinutes(minutes), true);
}
