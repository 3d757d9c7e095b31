using VatWatch.Alarms;
using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms.Rules;

namespace VatWatch.Tests.Alarms.Lifecycle;

/// <summary>Three entries within a minute are chatter, by the measures of ANSI/ISA-18.2. Delays are set to nothing to let it happen at all.</summary>
public sealed class ChatterWatchTests
{
    [Fact]
    public void A_chattering_alarm_is_set_aside_for_a_while_and_says_so()
    {
        var vat = Chattering("probe-fault", 30);
        var last = vat.ChangesOf("probe-fault.redox").Last();
        Assert.Equal((AlarmState.Shelved, true, null), (last.Status.State, last.Announce, last.By));
        Assert.EndsWith("It came and went 3 times within a minute and is set aside for 30 min.", last.Status.Text.In(DisplayUnits.Us), StringComparison.Ordinal);
        Assert.Equal(WatchedVat.Midnight + last.Stamp.Monotonic + TimeSpan.FromMinutes(30), last.Status.SetAside?.Until);
        Assert.Equal(3, vat.ChangesOf("probe-fault.redox").Count(change => change.Announce && change.Status.State != AlarmState.ReturnedUnacknowledged));
    }

    [Fact]
    public void It_comes_back_by_itself_when_it_still_stands()
    {
        var vat = Chattering("probe-fault", 30);
        vat.Pass(1800, it => it.Measure("redox", null, Quality.Fault, "open circuit"));
        Assert.Equal(AlarmState.Unacknowledged, vat.State("probe-fault.redox"));
    }

    [Fact]
    public void A_critical_alarm_is_never_set_aside_by_itself()
    {
        var settings = AlarmSettings.Default.With("overheat", rule => rule with { OnDelay = TimeSpan.Zero, OffDelay = TimeSpan.Zero });
        var vat = new WatchedVat(settings).Pass(120, it => it.Measure("liquor", it.Now.TotalSeconds % 2 == 0 ? 52 : 40));
        Assert.DoesNotContain(vat.ChangesOf("overheat"), change => change.Status.State == AlarmState.Shelved);
    }

    [Fact]
    public void Three_entries_spread_over_more_than_a_minute_are_no_chatter()
    {
        var chatter = new ChatterWatch();
        Assert.DoesNotContain(true, Enumerable.Range(0, 100).Select(i => chatter.Enter(TimeSpan.FromSeconds(i * 31))));
    }

    private static WatchedVat Chattering(string kind, double seconds)
    {
        var settings = AlarmSettings.Default.With(kind, rule => rule with { OnDelay = TimeSpan.Zero, OffDelay = TimeSpan.Zero });
        return new WatchedVat(settings).Pass(seconds, it =>
            it.Measure("redox", -700, it.Now.TotalSeconds % 4 < 2 ? Quality.Fault : Quality.Good, "open circuit"));
    }
}
