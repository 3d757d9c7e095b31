using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Reduction;

public sealed class RedoxRisingAlarmTests
{
    private const string RedoxRising = "redox-rising";

    [Fact]
    public void Enters_when_orp_rises_faster_than_set_for_two_minutes()
    {
        var vat = Rising(34);
        vat.Pass(119);
        Assert.Equal(AlarmState.Normal, vat.State(RedoxRising));
        vat.Pass(3);
        var told = Assert.Single(vat.ChangesOf(RedoxRising));
        Assert.Equal("Madder Lane vat is losing its reduction: ORP changes by +34 mV/h, limit +20 mV/h; it is at −720 mV.", told.Status.Text.In(DisplayUnits.Us));
        Assert.Equal((34.0, 20.0, "mV/h"), (told.Status.In(DisplayUnits.Us).Value!.Value, told.Status.In(DisplayUnits.Us).Limit!.Value, told.Status.In(DisplayUnits.Us).Unit));
        Assert.Equal(AlarmPriority.High, told.Status.Priority);
    }

    [Fact]
    public void A_slow_rise_is_no_alarm() => Assert.Empty(Rising(12).Pass(3600).ChangesOf(RedoxRising));

    [Fact]
    public void An_unknown_trend_keeps_what_stands()
    {
        var vat = Rising(34).Pass(125);
        vat.Condition = vat.Condition with { OrpRateMillivoltsPerHour = null, OrpMillivolts = null };
        vat.Pass(3600);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(RedoxRising));
    }

    [Theory]
    [InlineData(VatState.Resting, 45, -720)]
    [InlineData(VatState.TooCold, 20, -720)]
    [InlineData(VatState.Oxidised, 45, -540)]
    public void Is_suppressed_where_a_rise_says_nothing_new(VatState state, double temperatureC, double millivolts)
    {
        var vat = Rising(60);
        vat.Condition = vat.Condition with { State = state, TemperatureC = temperatureC, OrpMillivolts = millivolts };
        vat.Pass(600);
        Assert.Equal(AlarmState.Suppressed, vat.State(RedoxRising));
        Assert.Equal(0, vat.Announced(RedoxRising));
    }

    [Fact]
    public void Stays_in_force_while_the_vat_warms_overnight()
    {
        var vat = Rising(34);
        vat.Condition = vat.Condition with { State = VatState.Warming, TemperatureC = 28 };
        vat.Pass(125);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(RedoxRising));
    }

    [Fact]
    public void A_rise_that_outlasts_the_rest_is_told_when_the_rest_ends()
    {
        var vat = Rising(34);
        vat.Condition = vat.Condition with { State = VatState.Resting };
        vat.Pass(1800);
        vat.Condition = vat.Condition with { State = VatState.Ready };
        vat.Pass(1);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(RedoxRising));
        Assert.Equal(1, vat.Announced(RedoxRising));
    }

    [Fact]
    public void A_vat_without_potentials_has_no_such_alarm()
    {
        var vat = new WatchedVat(vat: WatchedVat.MadderLane() with { Orp = null });
        Assert.DoesNotContain(vat.Board.All, status => status.Alarm.Value == RedoxRising);
    }

    private static WatchedVat Rising(double millivoltsPerHour)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { OrpRateMillivoltsPerHour = millivoltsPerHour };
        return vat;
    }
}
