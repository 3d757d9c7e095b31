using VatWatch.Alarms;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats;

namespace VatWatch.Daemon.Tests.Web.Vats;

public sealed class NextStepTests
{
    private static readonly Stamp Now = new(Scenes.Start, TimeSpan.FromHours(5), true);
    private static readonly LocalClock Clock = new(TimeZoneInfo.Utc, Now);
    private readonly Scenes _scenes = new Scenes().Ready();
    private readonly VatCondition _known;

    public NextStepTests() => _known = _scenes.Feed.Vats[0].Condition with { Stamp = Now, TemperatureC = 44 };

    [Fact]
    public void A_vat_without_a_temperature_is_switched_off_whatever_else_is_known() => Assert.Equal(
        "Temperature unknown: switch the heater off at the plug and look at the vat.", NextStep.For(VatState.Unknown, "Look.", null, null, Clock));

    [Theory]
    [InlineData(66, "Dye. Switch the heater off by 04:26.")]
    [InlineData(0, "Dye. Switch the heater off now.")]
    [InlineData(13 * 60, "Dye.")]
    public void A_vat_that_heads_for_its_limit_says_by_when_to_switch_off(int minutes, string says) =>
        Assert.Equal(says, NextStep.For(VatState.Ready, "Dye. Stir gently.", _known with { TimeToLimit = InMinutes(minutes) }, null, Clock));

    [Fact]
    public void While_it_warms_the_band_comes_before_the_limit() => Assert.Equal(
        "Let it warm, lid on: in the band 04:15 to 04:40. Switch the heater off by 05:00.",
        NextStep.For(VatState.Warming, "Let it warm, lid on. Probes stay under.", _known with { TimeToBand = new(TimeSpan.FromMinutes(55), TimeSpan.FromMinutes(60), TimeSpan.FromMinutes(80)), TimeToLimit = InMinutes(100) }, null, Clock));

    [Fact]
    public void A_high_alarm_says_what_to_do_and_the_forecast_by_when()
    {
        var forecast = _scenes.Alarm("overheat-forecast", AlarmPriority.High, AlarmState.Unacknowledged, "", "Unplug the heater, since a relay may be shut.");
        Assert.Equal("Unplug the heater by 03:40.", NextStep.For(VatState.Ready, "Dye.", _known with { TimeToLimit = InMinutes(20) }, forecast, Clock));
        Assert.Equal("Dye.", NextStep.For(VatState.Ready, "Dye.", _known, forecast with { Priority = AlarmPriority.Medium }, Clock));
    }

    [Fact]
    public void What_is_too_hot_has_no_time() => Assert.Equal(
        "Unplug the heater at the wall, air the room and stay back.",
        NextStep.For(VatState.TooHot, SafetyActions.TooHot, _known with { TimeToLimit = InMinutes(20) }, null, Clock));

    private static Forecast InMinutes(int early) => new(TimeSpan.FromMinutes(early), TimeSpan.FromMinutes(early + 10), TimeSpan.FromMinutes(early + 30));
}
