using VatWatch.Daemon.Web.LogBook;
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

    private static SessionTally Tally(int before, int? outMinute)
    {
        var dips = Enumerable.Repeat(new Dip(At(-60), At(-55)), before).Append(new Dip(At(0), outMinute is { } minute ? At(minute) : null));
        return new([.. dips], new Dictionary<Material, double>());
    }

    private static Stamp At(int minute) => new(Scenes.Start.AddMinutes(minute), TimeSpan.FromMinutes(100 + minute), true);
}
