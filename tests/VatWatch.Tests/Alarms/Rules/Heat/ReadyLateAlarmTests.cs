using VatWatch.Alarms;
using VatWatch.Alarms.Rules;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class ReadyLateAlarmTests
{
    private const string Alarm = "ready-late";
    private static readonly DateTimeOffset Wish = WatchedVat.Midnight.AddHours(5);

    [Theory]
    // early, middle, late in min; state after 10 min of that forecast with 5 h to go
    [InlineData(200, 240, 290, AlarmState.Normal)]
    [InlineData(270, 330, 400, AlarmState.Normal)]
    [InlineData(320, 390, 480, AlarmState.Unacknowledged)]
    public void Only_what_even_the_early_edge_cannot_reach_is_late(double early, double middle, double late, AlarmState state)
    {
        var vat = new WatchedVat().Pass(600, it => it.Condition = Begun(it, Minutes(early), Minutes(middle), Minutes(late)));
        Assert.Equal(state, vat.State(Alarm));
    }

    [Fact]
    public void It_is_told_hours_ahead_and_returns_when_the_middle_is_in_time_again()
    {
        var vat = new WatchedVat().Pass(600, it => it.Condition = Begun(it, Minutes(320), Minutes(390), Minutes(480)));
        Assert.Equal(
            $"Madder Lane vat will not be ready by {Wish.ToLocalTime():HH:mm}: by the forecast it takes 5 h 20 min to 8 h yet. It is at 86.0 °F, wanted 100.0 °F.",
            vat.Status(Alarm).Text.In(DisplayUnits.Us));
        Assert.Equal((320.0, 290.0, "min", AlarmPriority.Medium), (vat.Status(Alarm).Value!.Value, vat.Status(Alarm).Limit!.Value, vat.Status(Alarm).Unit, vat.Status(Alarm).Priority));
        vat.Pass(660, it => it.Condition = Begun(it, Minutes(150), Minutes(200), Minutes(250)));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Alarm));
    }

    [Fact]
    public void A_warm_up_that_is_not_heading_there_is_late_after_some_patience()
    {
        var vat = new WatchedVat().Pass(60 * 19, it => it.Condition = Begun(it, null, null, null));
        Assert.Equal(AlarmState.Normal, vat.State(Alarm));
        vat.Pass(60 * 7, it => it.Condition = Begun(it, null, null, null));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Alarm));
        Assert.Contains("it is not heading there", vat.Status(Alarm).Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_warm_up_that_fails_is_told_by_its_own_alarm()
    {
        var vat = new WatchedVat().Pass(60 * 30, it => it.Condition = Begun(it, null, null, null) with
        {
            WarmUp = Begun(it, null, null, null).WarmUp! with { SlowSince = WatchedVat.At(TimeSpan.Zero), RiseK = 0 },
        });
        Assert.Equal((AlarmState.Suppressed, AlarmState.Unacknowledged), (vat.State(Alarm), vat.State("warming-fault")));
    }

    [Fact]
    public void While_that_alarm_may_yet_return_a_rise_that_trembles_is_not_told_a_second_time()
    {
        VatCondition Slow(WatchedVat it) => Begun(it, null, null, null) with
        {
            WarmUp = Begun(it, null, null, null).WarmUp! with { SlowSince = WatchedVat.At(TimeSpan.Zero), RiseK = 0 },
        };
        var vat = new WatchedVat().Pass(60 * 30, Set(Slow)).Pass(60 * 10, Set(it => Begun(it, null, null, null)));
        Assert.Equal((AlarmState.Suppressed, AlarmState.Unacknowledged), (vat.State(Alarm), vat.State("warming-fault")));
        vat.Pass(60 * 20, Set(it => Begun(it, null, null, null)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Alarm));

        static Action<WatchedVat> Set(Func<WatchedVat, VatCondition> of) => it => it.Condition = of(it);
    }

    [Fact]
    public void The_time_of_the_configuration_counts_while_the_vat_is_warming()
    {
        var settings = AlarmSettings.Default with { ReadyBy = new(new(5, 0), TimeSpan.FromHours(4), TimeZoneInfo.Utc) };
        VatCondition Warming(WatchedVat it, VatState state) => Begun(it, Minutes(320), Minutes(390), null) with { WarmUp = null, State = state };
        Assert.Equal(AlarmState.Unacknowledged, new WatchedVat(settings).Pass(600, it => it.Condition = Warming(it, VatState.Warming)).State(Alarm));
        Assert.Equal(AlarmState.Normal, new WatchedVat(settings).Pass(600, it => it.Condition = Warming(it, VatState.TooCold)).State(Alarm));
        Assert.Equal(AlarmState.Normal, new WatchedVat().Pass(600, it => it.Condition = Warming(it, VatState.Warming)).State(Alarm));
    }

    [Fact]
    public void Once_the_time_of_the_configuration_has_passed_only_cold_speaks()
    {
        var settings = AlarmSettings.Default with { ReadyBy = new(new(0, 20), TimeSpan.FromHours(1), TimeZoneInfo.Utc) };
        var vat = new WatchedVat(settings);
        VatCondition Warming(WatchedVat it) => Begun(it, Minutes(60), Minutes(90), null) with { WarmUp = null };
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(60 * 19, it => it.Condition = Warming(it)).State(Alarm));
        vat.Pass(60 * 15, it => it.Condition = Warming(it));
        Assert.Equal((AlarmState.Suppressed, AlarmState.Unacknowledged), (vat.State(Alarm), vat.State("cold")));
        vat.Pass(60 * 15, it => it.Condition = it.Ready());
        Assert.Equal(AlarmState.Normal, vat.State(Alarm));
        Assert.Single(vat.ChangesOf(Alarm), change => change.Announce);
    }

    [Theory]
    [InlineData("2026-03-07T12:59:00Z", "2026-03-07T13:00:00Z")]
    [InlineData("2026-03-07T13:00:01Z", "2026-03-08T12:00:00Z")] // the clocks go forward in Chicago
    [InlineData("2026-10-31T13:00:00Z", "2026-11-01T13:00:00Z")] // and back
    public void The_next_time_follows_the_change_of_clocks(string now, string next)
    {
        var ready = new ReadyBy(new(7, 0), TimeSpan.FromHours(4), TimeZoneInfo.FindSystemTimeZoneById("America/Chicago"));
        Assert.Equal(DateTimeOffset.Parse(next), ready.Next(DateTimeOffset.Parse(now)));
    }

    private static TimeSpan Minutes(double minutes) => TimeSpan.FromMinutes(minutes);

    private static VatCondition Begun(WatchedVat vat, TimeSpan? early, TimeSpan? middle, TimeSpan? late)
    {
        var forecast = early is { } first ? new Forecast(first, middle!.Value, late) : null;
        return vat.Ready() with
        {
            State = VatState.Warming,
            TemperatureC = 30,
            TemperatureRateKPerHour = 2,
            TimeToBand = forecast,
            WarmUp = new() { Since = WatchedVat.At(TimeSpan.Zero), WasEntered = true, ReadyBy = Wish, StartC = 29, ExpectedRiseK = new(1, 2), RiseK = 1, Ready = forecast },
        };
    }
}
