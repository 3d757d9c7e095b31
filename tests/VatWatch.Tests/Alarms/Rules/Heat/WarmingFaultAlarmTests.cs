using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class WarmingFaultAlarmTests
{
    private const string Alarm = "warming-fault";

    [Theory]
    [InlineData(0, null, AlarmState.Normal)]
    [InlineData(19, null, AlarmState.Normal)]
    [InlineData(21.1, null, AlarmState.Unacknowledged)]
    // A rise that is seen again ends it, after the off-delay; one that begins anew before that keeps it.
    [InlineData(30, 25.0, AlarmState.Unacknowledged)]
    [InlineData(46, 25.0, AlarmState.ReturnedUnacknowledged)]
    public void Twenty_minutes_below_half_of_the_least_rise_are_told(double minutes, double? risesFrom, AlarmState state)
    {
        var vat = new WatchedVat();
        vat.Pass(60 * minutes, it => it.Condition = Slow(it, it.Now.TotalMinutes < (risesFrom ?? double.MaxValue) ? TimeSpan.Zero : null));
        Assert.Equal(state, vat.State(Alarm));
    }

    [Fact]
    public void The_sentence_says_what_was_expected_and_which_causes_fit()
    {
        var vat = new WatchedVat();
        vat.Pass(60 * 22, it => it.Condition = Slow(it, TimeSpan.Zero, WarmUpCause.ProbeNotInLiquor, WarmUpCause.HeaterNotOn, WarmUpCause.NoSupply));
        var status = vat.Status(Alarm);
        Assert.Equal(
            "Madder Lane vat does not warm up: 0.4 °F/h for 22 min, at least 5.4 °F/h was to be expected. What fits: the probe is not in the liquor; the heater is not on, or its thermostat is set too low; "
            + "a breaker or protective switch is open, or the element is dead.",
            status.Text.In(DisplayUnits.Us));
        Assert.Contains("at least 3.0 °C/h", status.Text.In(DisplayUnits.Si), StringComparison.Ordinal);
        Assert.Equal(AlarmPriority.High, status.Priority);
        Assert.StartsWith("Unplug the heater now: the vat may be far hotter than shown.", status.Action, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_warm_up_that_was_begun_there_is_nothing_to_judge()
    {
        var vat = new WatchedVat().Pass(3600);
        Assert.Equal(AlarmState.Normal, vat.State(Alarm));
        Assert.Equal("Madder Lane vat shows no fault of warming up.", vat.Status(Alarm).Text.ToString());
    }

    [Fact]
    public void A_temperature_that_is_lost_neither_raises_nor_ends_it()
    {
        var vat = new WatchedVat();
        vat.Pass(60 * 22, it => it.Condition = Slow(it, TimeSpan.Zero));
        vat.Pass(60 * 40, it => it.Condition = Slow(it, null) with { TemperatureC = null, WarmUp = Slow(it, null).WarmUp! with { RiseK = null } });
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Alarm));
        vat.Pass(60 * 21, it => it.Condition = it.Ready());
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Alarm));
    }

    [Fact]
    public void A_heater_that_is_seen_to_draw_power_in_vain_is_told_once()
    {
        var vat = new WatchedVat();
        vat.Pass(60 * 25, it => it.Condition = Slow(it, TimeSpan.Zero) with { Diagnoses = [new(DiagnosisKind.HeaterNotHeating, "The heater has been on for 25 min.")] });
        Assert.Equal((AlarmState.Unacknowledged, AlarmState.Suppressed), (vat.State("heating-fault"), vat.State(Alarm)));
    }

    [Fact]
    public void Switching_off_ends_it_without_calling_the_warm_up_sound()
    {
        var vat = new WatchedVat();
        vat.Pass(60 * 25, it => it.Condition = Slow(it, TimeSpan.Zero));
        vat.Pass(60 * 21, it => it.Condition = it.Ready());
        Assert.Equal("Madder Lane vat is not being warmed up any more; this warm-up showed a fault.", vat.Status(Alarm).Text.ToString());
    }

    [Fact]
    public void Less_heat_than_usual_is_not_told_beside_a_warm_up_that_does_not_come()
    {
        var vat = new WatchedVat();
        var weak = new Diagnosis(DiagnosisKind.WeakHeater, "In its first 41 min the heater has brought 0.5 °C.");
        vat.Pass(60 * 5, it => it.Condition = Slow(it, null) with { Diagnoses = [weak] });
        Assert.Equal(AlarmState.Unacknowledged, vat.State("heating-fault"));
        vat.Pass(60 * 25, it => it.Condition = Slow(it, TimeSpan.Zero) with { Diagnoses = [weak] });
        Assert.Equal((AlarmState.ReturnedUnacknowledged, AlarmState.Unacknowledged), (vat.State("heating-fault"), vat.State(Alarm)));
        Assert.Equal("Madder Lane vat still does not warm up as it should; of its heating nothing else is told.", vat.Status("heating-fault").Text.ToString());
    }

    /// <summary>A warm-up that was begun half an hour before and has been slow since <paramref name="slow"/>.</summary>
    private static VatCondition Slow(WatchedVat vat, TimeSpan? slow, params WarmUpCause[] causes) => vat.Ready() with
    {
        State = VatState.Warming,
        TemperatureC = 21,
        WarmUp = new()
        {
            Since = WatchedVat.At(TimeSpan.FromMinutes(-30)),
            WasEntered = true,
            StartC = 20.8,
            ExpectedRiseK = new(3, 9),
            RiseK = 0.2,
            RateKPerHour = 0.2,
            LeastKPerHour = 3,
            SlowSince = slow is { } since ? WatchedVat.At(since) : null,
            Causes = causes,
        },
    };
}
