using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class OverheatForecastAlarmTests
{
    private const string Forecast = "overheat-forecast";

    [Theory]
    [InlineData(45, 4, true)]
    [InlineData(46, 4, false)]
    [InlineData(20, 0, false)]
    [InlineData(20, -1, false)]
    public void Enters_when_the_early_edge_is_within_45_min_and_the_liquor_still_rises(double earlyMinutes, double kelvinPerHour, bool enters)
    {
        var vat = Heading(earlyMinutes, kelvinPerHour).Pass(62);
        Assert.Equal(enters ? AlarmState.Unacknowledged : AlarmState.Normal, vat.State(Forecast));
    }

    [Fact]
    public void Tells_the_span_and_never_a_bare_time()
    {
        var status = Heading(25, 4).Pass(62).Status(Forecast);
        Assert.Equal("Madder Lane vat may reach its limit of 120.0 °F in 25 min to 50 min: 113.0 °F now, rising by 7.2 °F/h.", status.Text.In(DisplayUnits.Us));
        Assert.Equal((25.0, 45.0, "min", AlarmPriority.High), (status.In(DisplayUnits.Us).Value!.Value, status.Limit!.Value, status.Unit, status.Priority));
    }

    [Fact]
    public void Wakes_an_acknowledged_alarm_when_a_quarter_of_an_hour_is_left()
    {
        var vat = Heading(40, 4).Pass(62);
        vat.Acknowledge(Forecast);
        vat.Condition = vat.Condition with { TimeToLimit = In(14) };
        vat.Pass(1);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Forecast));
    }

    [Fact]
    public void A_forecast_that_swings_about_the_border_is_one_alarm()
    {
        var vat = Heading(44, 4);
        vat.Pass(1800, it => it.Condition = it.Condition with { TimeToLimit = In(it.Now.TotalSeconds % 2 == 0 ? 44 : 47) });
        Assert.All(vat.ChangesOf(Forecast), change => Assert.Equal(AlarmState.Unacknowledged, change.Status.State));
        Assert.InRange(vat.Announced(Forecast), 1, 3);
    }

    [Fact]
    public void Gives_way_to_overheat_once_the_limit_is_reached()
    {
        var vat = Heading(25, 4).Pass(62);
        vat.Condition = vat.Condition with { TemperatureC = WatchedVat.F(120.5), TimeToLimit = In(0) };
        vat.Pass(1);
        Assert.Equal(AlarmState.Suppressed, vat.State(Forecast));
    }

    [Fact]
    public void A_lost_temperature_keeps_what_stands()
    {
        var vat = Heading(25, 4).Pass(62);
        vat.Condition = vat.Condition with { State = VatState.Unknown, TemperatureC = null, TemperatureRateKPerHour = null, TimeToLimit = null };
        vat.Pass(3600);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Forecast));
    }

    private static WatchedVat Heading(double earlyMinutes, double kelvinPerHour)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { TimeToLimit = In(earlyMinutes), TemperatureRateKPerHour = kelvinPerHour };
        return vat;
    }

    private static Forecast In(double earlyMinutes) =>
        new(TimeSpan.FromMinutes(earlyMinutes), TimeSpan.FromMinutes(earlyMinutes * 1.5), TimeSpan.FromMinutes(earlyMinutes * 2));

    [Fact]
    public void One_time_is_told_once()
    {
        var vat = Heading(3, 4);
        vat.Condition = vat.Condition with { TimeToLimit = new(TimeSpan.FromMinutes(3.1), TimeSpan.FromMinutes(3.3), TimeSpan.FromMinutes(3.8)) };
        Assert.Contains("in about 3 min:", vat.Pass(62).Status(Forecast).Text.In(DisplayUnits.Us), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.5, 30, false)]
    [InlineData(0.5, 7, true)]
    [InlineData(0.1, 30, true)]
    public void A_coarse_thermometer_wakes_people_only_shortly_before_the_limit(double stepK, double earlyMinutes, bool enters)
    {
        var vat = Heading(earlyMinutes, 4);
        vat.Condition = vat.Condition with { TemperatureStepK = stepK };
        Assert.Equal(enters ? AlarmState.Unacknowledged : AlarmState.Normal, vat.Pass(62).State(Forecast));
    }
}
