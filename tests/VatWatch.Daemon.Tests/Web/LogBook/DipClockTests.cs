using VatWatch.Daemon.Web.LogBook;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Tests.Web.LogBook;

public sealed class DipClockTests
{
    private static readonly DipWish Wish = new(5, 20, 2);

    [Theory]
    [InlineData(0, 3, null, "In", false, "dip 1 of 2")]
    [InlineData(0, 5, null, "In", true, "dip 1 of 2")]
    [InlineData(0, 24, 5, "Out", false, "dip 2 of 2")]
    [InlineData(0, 25, 5, "Out", true, "dip 2 of 2")]
    [InlineData(1, 90, 5, "Out", false, "all 2 dips done")]
    public void It_is_due_after_the_wished_time_and_never_after_the_last_dip(int dipsBefore, int nowMinute, int? outMinute, string words, bool isDue, string count)
    {
        var tally = Tally(dipsBefore, outMinute);
        var clock = DipClock.Of(tally, Wish, Scenes.Start.AddMinutes(nowMinute))!;
        Assert.Equal((words, isDue, count), (clock.Words, clock.IsDue, clock.Count));
    }

    [Fact]
    public void Without_a_wish_it_only_counts()
    {
        var clock = DipClock.Of(Tally(0, null), null, Scenes.Start.AddMinutes(90))!;
        Assert.Equal((TimeSpan.FromMinutes(90), null, false, null), (clock.Passed, clock.Goal, clock.IsDue, clock.Count));
        Assert.Null(DipClock.Of(SessionTally.Of([]), Wish, Scenes.Start));
    }

    [Theory]
    [InlineData(Material.SodaAsh, 14, false, "Read the pH again")]
    [InlineData(Material.SodaAsh, 15, true, "Read the pH again")]
    [InlineData(Material.ReducingAgent, 29, false, "Read the ORP again")]
    [InlineData(Material.ReducingAgent, 30, true, "Read the ORP again")]
    public void After_a_portion_it_is_due_when_the_wait_is_over(Material material, int minutes, bool isDue, string words)
    {
        var clock = DipClock.OfDose([Added(material, 0)], Local(minutes))!;
        Assert.Equal((isDue, words), (clock.IsDue, clock.DueWords));
        Assert.StartsWith("Dose in, read again at ", clock.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_dose_is_not_waited_for_for_ever_nor_after_a_reading_and_water_not_at_all()
    {
        Assert.Null(DipClock.OfDose([Added(Material.SodaAsh, 0)], Local(121)));
        Assert.Null(DipClock.OfDose([Added(Material.Water, 0)], Local(5)));
        Assert.Null(DipClock.OfDose([Added(Material.SodaAsh, 0), Added(Material.SodaAsh, 3) with { Kind = EntryKind.Reading, Material = null }], Local(5)));
    }

    private static LocalClock Local(int minute) => new(TimeZoneInfo.Utc, At(minute));

    private static SessionEntry Added(Material material, int minute) =>
        new() { Id = 1, Vat = new("madder-lane"), Kind = EntryKind.Added, At = At(minute), By = "Ada", Material = material, Amount = 20 };

    private static SessionTally Tally(int before, int? outMinute)
    {
        var dips = Enumerable.Repeat(new Dip(At(-60), At(-55)), before).Append(new Dip(At(0), outMinute is { } minute ? At(minute) : null));
        return new([.. dips], new Dictionary<Material, double>());
    }

    private static Stamp At(int minute) => new(Scenes.Start.AddMinutes(minute), TimeSpan.FromMinutes(100 + minute), true);
}
