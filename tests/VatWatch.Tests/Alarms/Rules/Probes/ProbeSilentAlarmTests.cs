using VatWatch.Alarms;
using VatWatch.Alarms.Rules;

namespace VatWatch.Tests.Alarms.Rules.Probes;

public sealed class ProbeSilentAlarmTests
{
    private const string Silent = "probe-silent.liquor";

    [Theory]
    [InlineData(1, 15)]
    [InlineData(5, 15)]
    [InlineData(60, 180)]
    public void Enters_after_three_sample_periods_but_at_least_15_s(double everySeconds, double expectedSeconds)
    {
        var vat = new WatchedVat(vat: WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature, everySeconds)));
        vat.Pass(1, it => it.Measure("liquor", 45));
        vat.Pass(expectedSeconds - 1);
        Assert.Equal(AlarmState.Normal, vat.State(Silent));
        vat.Pass(1);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Silent));
    }

    [Fact]
    public void A_probe_that_never_spoke_is_silent()
    {
        var vat = new WatchedVat().Pass(17);
        Assert.Equal("No reading from probe liquor (temperature) in Madder Lane vat for 15 s.", vat.Status(Silent).Text.ToString().Replace("16 s", "15 s", StringComparison.Ordinal));
        Assert.Contains("switch the heater off at the plug", vat.Status(Silent).Action, StringComparison.Ordinal);
    }

    [Fact]
    public void When_the_watch_itself_stood_still_the_silence_counts_from_where_it_goes_on()
    {
        var vat = new WatchedVat(vat: WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature, 1)));
        vat.Pass(1, it => it.Measure("liquor", 45));
        vat.StandStill(120);
        vat.Pass(14);
        Assert.Equal(AlarmState.Normal, vat.State(Silent));
        vat.Pass(1);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Silent));
        Assert.StartsWith("No reading from probe liquor (temperature) in Madder Lane vat for 2 min", vat.Status(Silent).Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Answers_without_a_value_do_not_break_the_silence_and_say_why()
    {
        var vat = new WatchedVat();
        vat.Pass(20, it => it.Measure("liquor", null, Quality.Missing, "no reply within 1 s."));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Silent));
        Assert.EndsWith("(no reply within 1 s).", vat.Status(Silent).Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_doubtful_value_breaks_the_silence()
    {
        var vat = new WatchedVat();
        vat.Pass(60, it => it.Measure("liquor", 45, Quality.Suspect, "noisy"));
        Assert.Equal(AlarmState.Normal, vat.State(Silent));
    }

    [Fact]
    public void A_value_now_and_then_does_not_make_it_come_and_go()
    {
        var vat = new WatchedVat();
        vat.Pass(3600, it =>
        {
            if (it.Now.TotalSeconds % 25 == 0)
            {
                it.Measure("liquor", 45);
            }
        });
        Assert.All(vat.ChangesOf(Silent), change => Assert.Equal(AlarmState.Unacknowledged, change.Status.State));
    }

    [Fact]
    public void Returns_when_readings_come_and_stay()
    {
        var vat = new WatchedVat().Pass(20);
        vat.Pass(32, it => it.Measure("liquor", 45));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Silent));
        Assert.Equal("Readings from probe liquor (temperature) in Madder Lane vat are coming.", vat.Status(Silent).Text.In(DisplayUnits.Us));
    }

    [Theory]
    [InlineData("probe-silent.liquor", AlarmPriority.Critical)]
    [InlineData("probe-silent.redox", AlarmPriority.High)]
    [InlineData("probe-silent.alkali", AlarmPriority.Medium)]
    public void Has_the_priority_of_what_the_probe_guards(string alarm, AlarmPriority expected) =>
        Assert.Equal(expected, new WatchedVat().Pass(20).Status(alarm).Priority);

    [Fact]
    public void Is_one_step_less_urgent_while_a_second_thermometer_serves_and_rises_when_that_falls_silent_too()
    {
        var vat = new WatchedVat(vat: WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature), WatchedVat.Probe("second", Quantity.Temperature)));
        vat.Pass(20, it => it.Measure("second", 45));
        Assert.Equal(AlarmPriority.High, vat.Status(Silent).Priority);
        vat.Acknowledge(Silent);
        vat.Pass(20);
        Assert.Equal((AlarmState.Unacknowledged, AlarmPriority.Critical), (vat.State(Silent), vat.Status(Silent).Priority));
        Assert.Equal(2, vat.Announced(Silent));
    }

    [Fact]
    public void Leaves_a_probe_that_answers_with_faults_to_the_fault_alarm()
    {
        var vat = new WatchedVat();
        vat.Pass(120, it => it.Measure("liquor", null, Quality.Fault, "open circuit"));
        Assert.Equal(AlarmState.Suppressed, vat.State(Silent));
        Assert.Equal(AlarmState.Unacknowledged, vat.State("probe-fault.liquor"));
        vat.Pass(30);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Silent));
    }

    [Fact]
    public void A_delay_shorter_than_two_periods_is_stretched_so_that_a_sound_probe_is_not_called_silent()
    {
        var settings = AlarmSettings.Default.With("probe-silent", rule => rule with { OnDelay = TimeSpan.FromSeconds(5) });
        var vat = new WatchedVat(settings, WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature, everySeconds: 30)));
        vat.Pass(600, it =>
        {
            if (it.Now.TotalSeconds % 30 == 1)
            {
                it.Measure("liquor", 45);
            }
        });
        Assert.Empty(vat.Changes);
    }

    [Fact]
    public void While_its_bus_is_lost_that_bus_speaks_for_it_and_its_silence_counts_from_the_return()
    {
        var vat = new WatchedVat().Pass(5, it => it.Measure("liquor", 45));
        vat.LostBuses.Add(new("bench"));
        vat.Pass(3600);
        Assert.Empty(vat.ChangesOf(Silent));
        vat.LostBuses.Clear();
        vat.Pass(14);
        Assert.Empty(vat.ChangesOf(Silent));
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(3).State(Silent));
    }

    [Fact]
    public void A_silence_that_was_told_before_its_bus_was_lost_does_not_return_by_that()
    {
        var vat = new WatchedVat().Pass(5, it => it.Measure("liquor", 45)).Pass(20);
        vat.LostBuses.Add(new("bench"));
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(300).State(Silent));
        Assert.StartsWith("No reading from probe liquor", vat.Status(Silent).Text.ToString(), StringComparison.Ordinal);
    }
}
