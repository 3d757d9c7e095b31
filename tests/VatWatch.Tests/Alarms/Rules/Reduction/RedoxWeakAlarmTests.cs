using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Reduction;

public sealed class RedoxWeakAlarmTests
{
    private const string Weak = "redox-weak";

    [Fact]
    public void Enters_after_the_dwell_of_15_min()
    {
        var vat = At(-640).Pass(899);
        Assert.Equal(AlarmState.Normal, vat.State(Weak));
        vat.Pass(3);
        Assert.Equal("Madder Lane vat is weak in reduction: ORP −640 mV, limit −660 mV.", vat.Status(Weak).Text.In(DisplayUnits.Us));
        Assert.Equal((AlarmState.Unacknowledged, AlarmPriority.High), (vat.State(Weak), vat.Status(Weak).Priority));
    }

    [Fact]
    public void A_dip_that_lifts_the_potential_for_ten_minutes_is_no_alarm() =>
        Assert.Equal(AlarmState.Normal, DippedTwice().State(Weak));

    [Fact]
    public void Returns_when_the_potential_stays_below_the_deadband()
    {
        var vat = At(-640).Pass(902);
        vat.Condition = vat.Condition with { OrpMillivolts = -665 };
        vat.Pass(600);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Weak));
        vat.Condition = vat.Condition with { OrpMillivolts = -675 };
        vat.Pass(302);
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Weak));
    }

    [Theory]
    [InlineData(VatState.Warming, 30, -640)]
    [InlineData(VatState.TooCold, 30, -640)]
    [InlineData(VatState.Oxidised, 45, -560)]
    public void Is_suppressed_where_weakness_says_nothing(VatState state, double temperatureC, double millivolts)
    {
        var vat = At(millivolts);
        vat.Condition = vat.Condition with { State = state, TemperatureC = temperatureC };
        vat.Pass(1800);
        Assert.Equal(AlarmState.Suppressed, vat.State(Weak));
    }

    [Fact]
    public void A_vat_that_stays_above_the_mark_while_it_rests_is_weak()
    {
        var vat = At(-640);
        vat.Condition = vat.Condition with { State = VatState.Resting };
        Assert.Equal(AlarmState.Normal, vat.Pass(800).State(Weak));
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(200).State(Weak));
    }

    [Fact]
    public void A_potential_that_trembles_about_the_mark_of_oxidised_neither_suppresses_nor_releases_with_every_reading()
    {
        var vat = At(-640).Pass(902);
        var states = new List<AlarmState>();
        for (var reading = 0; reading < 200; reading++)
        {
            vat.Condition = vat.Condition with { OrpMillivolts = reading % 2 == 0 ? -578 : -583 };
            states.Add(vat.Pass(5).State(Weak));
        }

        Assert.Equal(1, states.Zip(states.Skip(1)).Count(pair => pair.First != pair.Second) + (states[0] == AlarmState.Unacknowledged ? 0 : 1));
        Assert.Equal(AlarmState.Suppressed, states[^1]);
    }

    [Fact]
    public void Recoveries_that_get_slower_are_told_as_weak_although_the_vat_rests_and_before_it_is_oxidised()
    {
        var vat = At(-690);
        vat.Condition = vat.Condition with
        {
            State = VatState.Resting,
            Diagnoses = [new(DiagnosisKind.ReducerRunningOut, "The reducing agent runs out: recovery takes 24 min, at first it took 12 min. Sharpen before the next dip.")],
        };
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(902).State(Weak));
        Assert.Equal(
            "Madder Lane vat is getting weak. The reducing agent runs out: recovery takes 24 min, at first it took 12 min. Sharpen before the next dip.",
            vat.Status(Weak).Text.ToString());
        vat.Condition = vat.Condition with { State = VatState.Ready, Diagnoses = [], OrpMillivolts = -720 };
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.Pass(302).State(Weak));
    }

    private static WatchedVat At(double millivolts)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { OrpMillivolts = millivolts };
        return vat;
    }

    private static WatchedVat DippedTwice()
    {
        var vat = At(-640).Pass(600);
        vat.Condition = vat.Condition with { OrpMillivolts = -720 };
        vat.Pass(2400);
        vat.Condition = vat.Condition with { OrpMillivolts = -640 };
        return vat.Pass(600);
    }
}
