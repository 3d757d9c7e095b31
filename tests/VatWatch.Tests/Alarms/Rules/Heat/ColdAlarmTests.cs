using VatWatch.Alarms;
using VatWatch.Alarms.Rules;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class ColdAlarmTests
{
    private const string Cold = "cold";
    private static readonly TimeZoneInfo Chicago = TimeZoneInfo.FindSystemTimeZoneById("America/Chicago");

    [Fact]
    public void Is_off_until_the_configuration_says_by_when_the_vat_should_be_ready() =>
        Assert.DoesNotContain(new WatchedVat().Board.All, status => status.Alarm.Value == Cold);

    [Fact]
    public void Enters_when_the_vat_is_below_its_band_at_the_time_it_should_be_ready()
    {
        var vat = ColdAt(new(0, 10), TimeZoneInfo.Utc).Pass(599);
        Assert.Equal(AlarmState.Normal, vat.State(Cold));
        vat.Pass(65);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Cold));
        Assert.Equal("Madder Lane vat is not warm enough: 86.0 °F, wanted 100.0 °F by 00:10.", vat.Status(Cold).Text.In(DisplayUnits.Us));
    }

    [Fact]
    public void Ends_when_the_hours_are_over_or_the_vat_is_warm()
    {
        var vat = ColdAt(new(0, 1), TimeZoneInfo.Utc).Pass(150);
        vat.Condition = vat.Condition with { TemperatureC = 39 };
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.Pass(125).State(Cold));

        var late = ColdAt(new(0, 1), TimeZoneInfo.Utc).Pass(4 * 3600 + 200);
        Assert.Equal(AlarmState.ReturnedUnacknowledged, late.State(Cold));
    }

    [Fact]
    public void A_later_hour_that_was_wished_for_tonight_goes_before_the_usual_one()
    {
        var vat = ColdAt(new(0, 1), TimeZoneInfo.Utc);
        vat.Condition = vat.Condition with { WarmUp = new() { Since = WatchedVat.At(TimeSpan.Zero), WasEntered = true, ExpectedRiseK = new(0, 0), ReadyBy = WatchedVat.Midnight.AddMinutes(30) } };
        Assert.Equal(AlarmState.Suppressed, vat.Pass(20 * 60, it => it.Condition = it.Condition with { Stamp = WatchedVat.At(it.Now) }).State(Cold));
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(12 * 60, it => it.Condition = it.Condition with { Stamp = WatchedVat.At(it.Now) }).State(Cold));
    }

    [Fact]
    public void A_clock_that_is_not_trusted_leaves_the_question_open()
    {
        var vat = ColdAt(new(0, 1), TimeZoneInfo.Utc);
        for (var second = 0; second < 600; second++)
        {
            var now = WatchedVat.At(TimeSpan.FromSeconds(second)) with { UtcTrusted = false };
            Assert.DoesNotContain(vat.Board.Assess(vat.Condition, now), change => change.Status.Alarm.Value == Cold);
        }
    }

    [Theory]
    [InlineData("2026-01-15T14:30:00Z", true)]
    [InlineData("2026-01-15T14:29:59Z", false)]
    [InlineData("2026-07-15T13:30:00Z", true)]
    [InlineData("2026-07-15T13:29:59Z", false)]
    [InlineData("2026-07-15T15:29:59Z", true)]
    [InlineData("2026-07-15T15:30:00Z", false)]
    public void The_time_is_local_winter_and_summer(string utc, bool covered) =>
        Assert.Equal(covered, new ReadyBy(new(8, 30), TimeSpan.FromHours(2), Chicago).Covers(DateTimeOffset.Parse(utc, null)));

    [Fact]
    public void The_hours_may_run_past_midnight() =>
        Assert.True(new ReadyBy(new(22, 0), TimeSpan.FromHours(4), TimeZoneInfo.Utc).Covers(new(2026, 3, 2, 1, 0, 0, TimeSpan.Zero)));

    private static WatchedVat ColdAt(TimeOnly readyBy, TimeZoneInfo zone)
    {
        var vat = new WatchedVat(AlarmSettings.Default with { ReadyBy = new(readyBy, TimeSpan.FromHours(4), zone) });
        vat.Condition = vat.Condition with { State = VatState.TooCold, TemperatureC = 30 };
        return vat;
    }
}
