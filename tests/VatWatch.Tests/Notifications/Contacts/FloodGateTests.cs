using VatWatch.Alarms;
using VatWatch.Notifications.Contacts;
using VatWatch.Tests.Alarms;

namespace VatWatch.Tests.Notifications.Contacts;

/// <summary>Limits after ANSI/ISA-18.2: a flood begins past 10 messages in 10 minutes and ends when fewer than 5 came in 10.</summary>
public sealed class FloodGateTests
{
    [Fact]
    public void Ten_messages_pass_and_one_summary_stands_for_the_rest()
    {
        var gate = new FloodGate();
        var sentences = Enumerable.Range(0, 40).SelectMany(i => Pass(gate, Change(i * 10, $"probe-silent.p{i}"))).ToList();
        Assert.Equal(11, sentences.Count);
        Assert.All(sentences.Take(10), (sentence, i) => Assert.Equal($"Alarm probe-silent.p{i}.", sentence));
        Assert.Equal("Too many alarms at once: after 10 messages in 10 min the next ones are held back. Look at the alarm page.", sentences[10]);
        Assert.Equal(30, gate.HeldBack);
    }

    [Fact]
    public void Ten_messages_in_ten_minutes_all_night_long_are_no_flood()
    {
        var gate = new FloodGate();
        Assert.All(Enumerable.Range(0, 480), i => Assert.Single(Pass(gate, Change(i * 60, "redox-weak"))));
        Assert.False(gate.IsFlooded);
    }

    [Fact]
    public void What_is_not_announced_costs_nothing()
    {
        var gate = new FloodGate();
        Assert.All(Enumerable.Range(0, 100), i => Assert.Empty(Pass(gate, Change(i, "redox-weak", announce: false))));
        Assert.Single(Pass(gate, Change(101, "redox-weak")));
    }

    [Fact]
    public void A_flood_that_goes_on_is_summed_up_once_per_window()
    {
        var gate = new FloodGate();
        var sentences = Enumerable.Range(0, 3600).SelectMany(i => Pass(gate, Change(i, "probe-silent.p1"))).ToList();
        Assert.Equal(10 + 1 + 5, sentences.Count);
        Assert.EndsWith("600 alarm messages were held back because too many came at once, about 1 alarm of madder-lane. The alarm page has them all.", sentences[12], StringComparison.Ordinal);
    }

    [Fact]
    public void The_end_of_a_flood_is_told_with_what_was_held_back_and_messages_pass_again()
    {
        var gate = new FloodGate();
        for (var i = 0; i < 15; i++)
        {
            Pass(gate, Change(i, $"probe-silent.p{i}"));
        }

        Assert.Empty(gate.Due(TimeSpan.FromSeconds(300)));
        var end = Assert.Single(gate.Due(TimeSpan.FromSeconds(700)));
        Assert.StartsWith("5 alarm messages were held back", end, StringComparison.Ordinal);
        Assert.Equal("Alarm overheat.", Assert.Single(Pass(gate, Change(701, "overheat"))));
    }

    [Fact]
    public void A_critical_alarm_is_told_in_the_midst_of_a_flood()
    {
        var gate = Flooded();
        Assert.Equal("Alarm overheat.", Assert.Single(Pass(gate, Change(30, "overheat", AlarmPriority.Critical))));
    }

    [Fact]
    public void Every_critical_alarm_passes_by_itself_at_once_however_many_there_are()
    {
        var gate = Flooded();
        Assert.Equal("Alarm overheat.", Assert.Single(Pass(gate, Change(30, "overheat", AlarmPriority.Critical))));
        for (var i = 0; i < 50; i++)
        {
            Assert.Equal($"Alarm probe-silent.p{i}.", Assert.Single(Pass(gate, Change(30.01 + (i / 100.0), $"probe-silent.p{i}", AlarmPriority.Critical))));
        }
    }

    [Theory]
    // second of the same critical alarm's second coming; whether it is told
    [InlineData(31, AlarmState.Unacknowledged, false)]
    [InlineData(149, AlarmState.Unacknowledged, false)]
    [InlineData(150, AlarmState.Unacknowledged, true)]
    [InlineData(160, AlarmState.ReturnedUnacknowledged, false)]
    public void One_that_was_just_told_as_standing_is_no_news(double second, AlarmState state, bool isTold)
    {
        var gate = Flooded();
        Pass(gate, Change(30, "overheat", AlarmPriority.Critical));
        Assert.Equal(isTold, Pass(gate, Change(second, "overheat", AlarmPriority.Critical, state: state)).Count == 1);
    }

    [Fact]
    public void One_whose_return_was_told_is_news_when_it_comes_back()
    {
        var gate = new FloodGate();
        Pass(gate, Change(0, "overheat", AlarmPriority.Critical));
        Pass(gate, Change(1, "overheat", AlarmPriority.Critical, state: AlarmState.ReturnedUnacknowledged));
        for (var i = 0; i < 20; i++)
        {
            Pass(gate, Change(2 + i, $"probe-fault.p{i}"));
        }

        Assert.Single(Pass(gate, Change(30, "overheat", AlarmPriority.Critical)));
    }

    [Fact]
    public void The_first_of_each_vats_highest_passes()
    {
        var gate = Flooded();
        Assert.Single(Pass(gate, Change(30, "alkali-low", AlarmPriority.Medium, vat: "weld-yard")));
        Assert.Empty(Pass(gate, Change(31, "cold", AlarmPriority.Medium, vat: "weld-yard")));
        Assert.Single(Pass(gate, Change(32, "oxidised", AlarmPriority.High, vat: "weld-yard")));
        Assert.Empty(Pass(gate, Change(33, "redox-weak", AlarmPriority.High, vat: "weld-yard")));
        Assert.Empty(Pass(gate, Change(34, "oxidised")));
        Assert.Single(Pass(gate, Change(35, "calibration-due.glass", AlarmPriority.Low, vat: "daemon")));
    }

    [Fact]
    public void The_worst_flood_of_critical_alarms_tells_each_at_once_and_none_oftener_than_its_pace()
    {
        var gate = new FloodGate();
        var told = Enumerable.Range(0, 3600)
            .SelectMany(i => Pass(gate, Change(i, $"probe-silent.p{i % 50}", AlarmPriority.Critical)).Where(one => one.StartsWith("Alarm", StringComparison.Ordinal)).Select(one => (Second: i, Sentence: one)))
            .ToList();
        Assert.Equal(Enumerable.Range(0, 50), told.Take(50).Select(one => one.Second));
        Assert.All(
            told.Skip(50).GroupBy(one => one.Sentence),
            alarm => Assert.All(alarm.Zip(alarm.Skip(1)), pair => Assert.True(pair.Second.Second - pair.First.Second >= 120)));
    }

    private static FloodGate Flooded()
    {
        var gate = new FloodGate();
        for (var i = 0; i < 20; i++)
        {
            Pass(gate, Change(i, $"probe-fault.p{i}"));
        }

        return gate;
    }

    private static AlarmChange Change(
        double second, string alarm, AlarmPriority priority = AlarmPriority.High, bool announce = true, AlarmState state = AlarmState.Unacknowledged, string vat = "madder-lane")
    {
        var stamp = WatchedVat.At(TimeSpan.FromSeconds(second));
        var status = new AlarmStatus
        {
            Alarm = new(alarm),
            Vat = new VatId(vat),
            State = state,
            Priority = priority,
            Since = stamp,
            Text = $"Alarm {alarm}.",
            Action = "Look.",
        };
        return new(AlarmState.Normal, status, stamp, null, announce);
    }

    /// <summary>Offers what a contact's policy would: the sentence of a change that is announced.</summary>
    private static IReadOnlyList<string> Pass(FloodGate gate, AlarmChange change) =>
        change.Announce ? gate.Pass(change.Status, change.Status.Text.In(DisplayUnits.Us), change.Stamp.Monotonic) : gate.Due(change.Stamp.Monotonic);
}
