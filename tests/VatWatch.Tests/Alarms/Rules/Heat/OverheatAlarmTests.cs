using VatWatch.Alarms;
using VatWatch.Alarms.Rules.Heat;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class OverheatAlarmTests
{
    private const string Overheat = "overheat";

    [Fact]
    public void Enters_after_ten_seconds_at_the_limit()
    {
        var vat = new WatchedVat();
        vat.Pass(9, it => it.Measure("liquor", WatchedVat.F(120)));
        Assert.Equal(AlarmState.Normal, vat.State(Overheat));
        vat.Pass(2, it => it.Measure("liquor", WatchedVat.F(120)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
    }

    [Theory]
    [InlineData(1, AlarmState.Normal)]
    [InlineData(2, AlarmState.Unacknowledged)]
    public void A_stray_reading_of_a_slow_probe_waits_for_the_next(int hot, AlarmState state)
    {
        var vat = new WatchedVat();
        for (var reading = 0; reading < 4; reading++)
        {
            vat.Measure("liquor", reading > 0 && reading <= hot ? 85 : 42);
            vat.Pass(12);
        }

        Assert.Equal(state, vat.State(Overheat));
    }

    [Fact]
    public void Tells_value_limit_and_what_to_do_in_the_units_of_the_dyer()
    {
        var vat = new WatchedVat();
        vat.Pass(15, it => it.Measure("liquor", WatchedVat.F(121.34)));
        var told = Assert.Single(vat.ChangesOf(Overheat));
        Assert.True(told.Announce);
        Assert.Equal((121.3, 120.0, "°F"), (told.Status.In(DisplayUnits.Us).Value!.Value, told.Status.In(DisplayUnits.Us).Limit!.Value, told.Status.In(DisplayUnits.Us).Unit));
        Assert.Equal("Madder Lane vat is too hot: 121.3 °F, limit 120.0 °F.", told.Status.Text.In(DisplayUnits.Us));
        Assert.Contains("Unplug the heater at the wall", told.Status.Action, StringComparison.Ordinal);
        Assert.Equal(AlarmPriority.Critical, told.Status.Priority);

        var celsius = new WatchedVat();
        celsius.Pass(15, it => it.Measure("liquor", 50.04));
        Assert.Equal("Madder Lane vat is too hot: 50.0 °C, limit 48.9 °C.", celsius.Status(Overheat).Text.In(DisplayUnits.Si));
    }

    [Fact]
    public void A_vat_that_boils_is_said_to_and_nobody_is_sent_near_it()
    {
        var vat = new WatchedVat().Pass(15, it => it.Measure("liquor", 60));
        Assert.Equal(SafetyActions.TooHot, vat.Status(Overheat).Action);
        vat.Pass(3600, it => it.Measure("liquor", 99.8));
        Assert.Equal("Madder Lane vat boils or is about to: 211.6 °F, limit 120.0 °F.", vat.Status(Overheat).Text.In(DisplayUnits.Us));
        Assert.Equal((AlarmState.Unacknowledged, SafetyActions.Boiling), (vat.State(Overheat), vat.Status(Overheat).Action));
    }

    [Fact]
    public void Returns_only_below_the_deadband_and_after_the_off_delay()
    {
        var vat = Overheated();
        vat.Pass(300, it => it.Measure("liquor", WatchedVat.F(119.5)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        vat.Pass(119, it => it.Measure("liquor", WatchedVat.F(118)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        vat.Pass(3, it => it.Measure("liquor", WatchedVat.F(118)));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Overheat));
        Assert.Equal("Madder Lane vat is below its limit: 118.0 °F, limit 120.0 °F.", vat.Status(Overheat).Text.In(DisplayUnits.Us));
    }

    [Fact]
    public void A_single_stray_value_raises_nothing()
    {
        var vat = new WatchedVat();
        vat.Pass(600, it => it.Measure("liquor", WatchedVat.F(it.Now.TotalSeconds % 60 == 30 ? 150 : 113)));
        Assert.DoesNotContain(vat.Changes, change => change.Status.Alarm.Value == Overheat);
    }

    [Fact]
    public void A_doubtful_value_counts()
    {
        var vat = new WatchedVat();
        vat.Pass(12, it => it.Measure("liquor", WatchedVat.F(125), Quality.Suspect, "jumped"));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void A_number_that_keeps_coming_as_a_fault_counts_after_two_readings()
    {
        var vat = new WatchedVat();
        vat.Pass(11, it => it.Measure("liquor", WatchedVat.F(125), Quality.Fault, "jumped by 12 °F"));
        Assert.Equal(AlarmState.Normal, vat.State(Overheat));
        vat.Pass(2, it => it.Measure("liquor", WatchedVat.F(125), Quality.Fault, "jumped by 12 °F"));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void The_hottest_of_several_probes_counts_and_is_named()
    {
        var vat = TwoProbes();
        vat.Pass(12, it =>
        {
            it.Measure("top", WatchedVat.F(122));
            it.Measure("bottom", WatchedVat.F(110));
        });
        Assert.Equal("Madder Lane vat is too hot: 122.0 °F by probe top, limit 120.0 °F.", vat.Status(Overheat).Text.In(DisplayUnits.Us));
    }

    [Fact]
    public void A_missing_temperature_does_not_clear_it()
    {
        var vat = Overheated();
        vat.Pass(3600, it => it.Measure("liquor", null, Quality.Missing, "no reply"));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        Assert.Equal("Madder Lane vat was too hot when last read: 122.0 °F, limit 120.0 °F; there is no reading now.", vat.Status(Overheat).Text.In(DisplayUnits.Us));
    }

    [Fact]
    public void The_silence_of_the_hot_probe_is_not_cleared_by_a_cooler_neighbour()
    {
        var vat = TwoProbes();
        vat.Pass(12, it =>
        {
            it.Measure("top", WatchedVat.F(122));
            it.Measure("bottom", WatchedVat.F(110));
        });
        vat.Pass(3600, it => it.Measure("bottom", WatchedVat.F(110)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        vat.Pass(125, it =>
        {
            it.Measure("top", WatchedVat.F(111));
            it.Measure("bottom", WatchedVat.F(110));
        });
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void The_silence_of_a_cool_probe_leaves_the_other_to_judge()
    {
        var vat = TwoProbes();
        vat.Pass(5, it => it.Measure("bottom", WatchedVat.F(110)));
        vat.Pass(30, it => it.Measure("top", WatchedVat.F(122)));
        vat.Pass(130, it => it.Measure("top", WatchedVat.F(112)));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void Another_three_kelvin_wakes_an_acknowledged_alarm()
    {
        var vat = Overheated();
        vat.Acknowledge(Overheat);
        vat.Pass(60, it => it.Measure("liquor", WatchedVat.F(124)));
        Assert.Equal(AlarmState.Acknowledged, vat.State(Overheat));
        vat.Pass(60, it => it.Measure("liquor", WatchedVat.F(126)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        Assert.Equal(2, vat.Announced(Overheat));
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(5)]
    [InlineData(20)]
    public void A_value_that_crosses_the_limit_every_second_for_an_hour_is_told_once_per_reminder(double swingF)
    {
        var vat = new WatchedVat();
        vat.Pass(3600, it => it.Measure("liquor", WatchedVat.F(120 + (it.Now.TotalSeconds % 2 == 0 ? swingF : -swingF))));
        // One entry, then one reminder per 5 min until somebody acknowledges; never a return in between.
        Assert.InRange(vat.Announced(Overheat), 1, 1 + 60 / 5);
        Assert.All(vat.ChangesOf(Overheat), change => Assert.Equal(AlarmState.Unacknowledged, change.Status.State));

        vat.Acknowledge(Overheat);
        var before = vat.Announced(Overheat);
        vat.Pass(1700, it => it.Measure("liquor", WatchedVat.F(120 + (it.Now.TotalSeconds % 2 == 0 ? swingF : -swingF))));
        Assert.Equal(before, vat.Announced(Overheat));
    }

    [Fact]
    public void No_real_excursion_is_missed_among_noise()
    {
        var noise = new Random(20260302);
        var vat = new WatchedVat();
        for (var excursion = 0; excursion < 200; excursion++)
        {
            var before = vat.ChangesOf(Overheat).Count(change => change.Before != AlarmState.Unacknowledged && change.Status.State == AlarmState.Unacknowledged);
            vat.Pass(240, it => it.Measure("liquor", WatchedVat.F(114 + noise.NextDouble() * 2)));
            vat.Pass(30, it => it.Measure("liquor", WatchedVat.F(121 + noise.NextDouble() * 2 - 1)));
            vat.Pass(1, it => it.Measure("liquor", WatchedVat.F(114)));
            var after = vat.ChangesOf(Overheat).Count(change => change.Before != AlarmState.Unacknowledged && change.Status.State == AlarmState.Unacknowledged);
            Assert.Equal(before + 1, after);
        }
    }

    private static WatchedVat Overheated() => new WatchedVat().Pass(12, it => it.Measure("liquor", WatchedVat.F(122)));

    private static WatchedVat TwoProbes() => new(vat: WatchedVat.MadderLane(
        WatchedVat.Probe("top", Quantity.Temperature), WatchedVat.Probe("bottom", Quantity.Temperature)));
}
