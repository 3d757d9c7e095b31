using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class HeaterDueAlarmTests
{
    private const string Alarm = "heater-due";
    private static readonly HeaterDue Due = new(WatchedVat.Midnight.AddHours(5), WatchedVat.Midnight.AddHours(9), 45);

    [Fact]
    public void It_says_so_when_the_moment_has_come_and_again_until_the_heater_is_on()
    {
        var vat = Cold(Due).Pass(5 * 3600 - 60);
        Assert.Equal(AlarmState.Normal, vat.State(Alarm));
        vat.Pass(120);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Alarm));
        Assert.Equal($"Switch on the heater of Madder Lane vat now, for 113.0 °F by {Due.Ready.ToLocalTime():HH:mm}.", vat.Status(Alarm).Text.In(DisplayUnits.Us));
        vat.Pass(1200);
        Assert.Equal(3, vat.Changes.Count(change => change.Status.Alarm.Value == Alarm && change is { Announce: true, Status.State: AlarmState.Unacknowledged }));

        vat.Pass(5, it => it.Condition = it.Condition with { WarmUp = Begun() });
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Alarm));
        Assert.Equal("The heater of Madder Lane vat is on.", vat.Status(Alarm).Text.ToString());
    }

    [Fact]
    public void A_plan_that_is_put_off_ends_it()
    {
        var vat = Cold(Due with { SwitchOn = WatchedVat.Midnight }).Pass(5);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Alarm));
        vat.Board.HeaterDue = null;
        vat.Pass(5);
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Alarm));
        Assert.Equal("The heater of Madder Lane vat is no longer awaited.", vat.Status(Alarm).Text.ToString());
    }

    [Fact]
    public void A_wish_that_cannot_be_kept_any_more_is_told_with_what_can() =>
        Assert.Contains(
            $"was wished for, and it will be about {Due.Ready.AddMinutes(40).ToLocalTime():HH:mm}",
            Cold(Due with { SwitchOn = WatchedVat.Midnight, Late = Due.Ready.AddMinutes(40) }).Pass(5).Status(Alarm).Text.ToString(),
            StringComparison.Ordinal);

    [Fact]
    public void A_vat_that_is_warm_already_needs_no_heater() =>
        Assert.Equal(AlarmState.Normal, Cold(Due with { SwitchOn = WatchedVat.Midnight }).Pass(60, it => it.Condition = it.Condition with { TemperatureC = 45.5 }).State(Alarm));

    [Fact]
    public void Without_a_plan_there_is_nothing_to_say() => Assert.Equal(AlarmState.Normal, Cold(null).Pass(600).State(Alarm));

    private static WatchedVat Cold(HeaterDue? due)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Ready() with { State = VatState.TooCold, TemperatureC = 25 };
        vat.Board.HeaterDue = due;
        return vat;
    }

    private static WarmUp Begun() => new() { Since = WatchedVat.At(TimeSpan.Zero), WasEntered = true, ExpectedRiseK = new(0, 0) };
}
