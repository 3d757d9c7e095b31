using VatWatch.Alarms;
using VatWatch.Vats;

namespace VatWatch.Tests.Alarms;

public sealed class AlarmBoardTests
{
    private const string Overheat = "overheat";

    [Fact]
    public void Every_alarm_begins_in_normal_with_a_sentence_and_an_action()
    {
        var vat = new WatchedVat();
        Assert.All(vat.Board.All, status =>
        {
            Assert.Equal(AlarmState.Normal, status.State);
            Assert.EndsWith(".", status.Text, StringComparison.Ordinal);
            Assert.EndsWith(".", status.Action, StringComparison.Ordinal);
        });
        Assert.Equal(vat.Board.All.Count, vat.Board.All.Select(status => status.Alarm).Distinct().Count());
    }

    [Fact]
    public void Every_alarm_has_its_record_of_rationalisation()
    {
        var vat = new WatchedVat();
        Assert.All(vat.Board.All, status =>
        {
            var rationale = vat.Board.RationaleOf(status.Alarm)!;
            Assert.DoesNotContain("", new[] { rationale.Cause, rationale.Consequence, rationale.Action, rationale.TimeToRespond });
        });
        Assert.Null(vat.Board.RationaleOf(new("no-such-alarm")));
    }

    [Fact]
    public void An_alarm_is_judged_with_the_measurement_and_not_only_with_the_next_tick()
    {
        var settings = AlarmSettings.Default.With(Overheat, rule => rule with { OnDelay = TimeSpan.Zero });
        var change = Assert.Single(new WatchedVat(settings).Measure("liquor", 52));
        Assert.Equal((AlarmState.Normal, AlarmState.Unacknowledged), (change.Before, change.Status.State));
    }

    [Fact]
    public void Acknowledging_is_recorded_with_who_and_when_and_tells_nobody()
    {
        var vat = Overheated();
        var change = Assert.Single(vat.Acknowledge(Overheat));
        Assert.Equal(("Ada", "Ada", false), (change.By, change.Status.AcknowledgedBy, change.Announce));
        Assert.Equal(WatchedVat.Midnight + vat.Now, change.Status.AcknowledgedAt);
        Assert.Empty(vat.Acknowledge(Overheat));
    }

    [Fact]
    public void Acknowledging_ends_the_reminders()
    {
        var vat = Overheated();
        vat.Pass(901, Hot);
        Assert.Equal(4, vat.Announced(Overheat));
        vat.Acknowledge(Overheat);
        vat.Pass(1700, Hot);
        Assert.Equal(4, vat.Announced(Overheat));
    }

    [Fact]
    public void A_reminder_is_a_change_with_the_same_state_and_the_newest_value()
    {
        var vat = Overheated();
        vat.Pass(301, it => it.Measure("liquor", WatchedVat.F(123.1)));
        var reminder = vat.ChangesOf(Overheat).Last();
        Assert.Equal((AlarmState.Unacknowledged, AlarmState.Unacknowledged, true), (reminder.Before, reminder.Status.State, reminder.Announce));
        Assert.Equal(123.1, reminder.Status.Value);
    }

    [Theory]
    [InlineData("no-such-alarm")]
    [InlineData("redox-rising")]
    public void There_is_nothing_to_acknowledge_on_an_alarm_that_is_unknown_or_normal(string alarm) =>
        Assert.Empty(new WatchedVat().Acknowledge(alarm));

    [Fact]
    public void A_shelf_is_cut_down_to_what_is_allowed_expires_by_itself_and_says_why()
    {
        var vat = Overheated();
        var change = Assert.Single(vat.Shelve(Overheat, minutes: 600));
        Assert.Equal(("Ada", "probe out for cleaning"), (change.By, change.Status.SetAside?.Because));
        Assert.Equal(WatchedVat.Midnight + vat.Now + TimeSpan.FromMinutes(30), change.Status.SetAside?.Until);
        vat.Pass(1799, Hot);
        Assert.Equal(AlarmState.Shelved, vat.State(Overheat));
        vat.Pass(2, Hot);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        Assert.Null(vat.Status(Overheat).SetAside);
    }

    [Fact]
    public void An_alarm_can_be_taken_off_the_shelf_and_out_of_service_and_back()
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 10);
        Assert.Equal(AlarmState.Unacknowledged, Assert.Single(vat.Do(AlarmActKind.Unshelve, Overheat)).Status.State);
        Assert.Equal("probe replaced", Assert.Single(vat.Do(AlarmActKind.TakeOutOfService, Overheat, "probe replaced")).Status.SetAside?.Because);
        vat.Pass(90_000 / 25, Hot);
        Assert.Equal(AlarmState.OutOfService, vat.State(Overheat));
        Assert.True(Assert.Single(vat.Do(AlarmActKind.ReturnToService, Overheat)).Announce);
    }

    [Fact]
    public void What_comes_off_the_shelf_is_unseen_again()
    {
        var vat = Overheated();
        vat.Acknowledge(Overheat);
        vat.Shelve(Overheat, 10);
        Assert.Equal("Ada", vat.Status(Overheat).AcknowledgedBy);
        vat.Do(AlarmActKind.Unshelve, Overheat);
        Assert.Equal((AlarmState.Unacknowledged, null), (vat.State(Overheat), vat.Status(Overheat).AcknowledgedBy));
    }

    [Fact]
    public void An_ordinary_measurement_allocates_nothing()
    {
        var vat = new WatchedVat().Pass(5, Cool);
        var measurement = new VatWatch.Measurements.Measurement(
            vat.Vat.Id, new("liquor"), Measures.Temperature, WatchedVat.At(vat.Now), 44, 44, Quality.Good, null, null);
        vat.Board.Accept(measurement);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1000; i++)
        {
            vat.Board.Accept(measurement);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void A_latched_alarm_needs_acknowledgement_and_reset()
    {
        var vat = new WatchedVat(AlarmSettings.Default.With(Overheat, rule => rule with { Latch = true }));
        vat.Pass(12, Hot).Pass(125, Cool);
        Assert.Equal(AlarmState.Latched, vat.State(Overheat));
        Assert.Empty(vat.Do(AlarmActKind.Reset, Overheat));
        vat.Acknowledge(Overheat);
        Assert.Equal("Ada", vat.Status(Overheat).AcknowledgedBy);
        Assert.Equal(AlarmState.Normal, Assert.Single(vat.Do(AlarmActKind.Reset, Overheat)).Status.State);
    }

    [Fact]
    public void A_restart_brings_back_identical_states()
    {
        var vat = Overheated();
        vat.Acknowledge(Overheat);
        vat.Shelve("redox-rising", 60);
        var before = vat.Board.All;
        vat.Restart();
        Assert.Equal(before, vat.Board.All);
    }

    [Fact]
    public void After_a_restart_an_acknowledged_overheat_stands_without_being_told_anew_and_returns_when_cool()
    {
        var vat = Overheated();
        vat.Acknowledge(Overheat);
        vat.Restart();
        vat.Pass(60, Hot);
        Assert.Equal(AlarmState.Acknowledged, vat.State(Overheat));
        Assert.Equal("Ada", vat.Status(Overheat).AcknowledgedBy);
        Assert.Equal(1, vat.Announced(Overheat));
        vat.Pass(125, Cool);
        Assert.Equal(AlarmState.Normal, vat.State(Overheat));
        Assert.Null(vat.Status(Overheat).AcknowledgedBy);
    }

    [Fact]
    public void After_a_restart_a_hot_acknowledged_vat_is_not_told_as_worse_until_it_is()
    {
        var vat = new WatchedVat().Pass(12, it => MeasureAll(it, WatchedVat.F(133)));
        vat.Acknowledge(Overheat);
        vat.Restart().Pass(60, it => MeasureAll(it, WatchedVat.F(133)));
        Assert.Equal(AlarmState.Acknowledged, vat.State(Overheat));
        vat.Pass(1, it => MeasureAll(it, WatchedVat.F(140)));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void After_a_restart_without_readings_the_alarm_still_stands_and_reminds()
    {
        var vat = Overheated().Restart().Pass(301);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
        Assert.Equal(2, vat.Announced(Overheat));
        Assert.Equal("Madder Lane vat is too hot: 122.0 °F, limit 120.0 °F.", vat.Status(Overheat).Text);
    }

    [Fact]
    public void A_shelf_goes_on_over_a_restart_for_what_is_left_of_it()
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 20);
        var shelved = vat.Board.All;
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default, DisplayUnits.Us);
        var later = WatchedVat.At(vat.Now + TimeSpan.FromMinutes(15)) with { Monotonic = TimeSpan.Zero };
        board.Restore(shelved, later);
        Assert.DoesNotContain(board.Assess(vat.Condition, later.Plus(TimeSpan.FromSeconds(1))), change => change.Status.Alarm.Value == Overheat);
        var back = board.Assess(vat.Condition, later.Plus(TimeSpan.FromMinutes(5))).Single(change => change.Status.Alarm.Value == Overheat);
        Assert.Equal(AlarmState.Shelved, back.Before);
    }

    [Fact]
    public void Restarts_do_not_lengthen_a_shelf_whose_end_was_not_kept()
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 30);
        var kept = vat.Board.All.Select(status => status with { SetAside = null }).ToList();
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default, DisplayUnits.Us);
        var later = WatchedVat.At(vat.Now + TimeSpan.FromMinutes(31)) with { Monotonic = TimeSpan.Zero };
        board.Restore(kept, later);
        Assert.Contains(board.Assess(vat.Condition, later), change => change.Before == AlarmState.Shelved);
    }

    [Fact]
    public void An_alarm_the_configuration_no_longer_knows_is_closed_aloud()
    {
        var vat = Overheated();
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default.With(Overheat, rule => rule with { Enabled = false }), DisplayUnits.Us);
        board.Restore(vat.Board.All, WatchedVat.At(TimeSpan.Zero));
        var closed = Assert.Single(board.Assess(vat.Condition, WatchedVat.At(TimeSpan.FromSeconds(1))));
        Assert.Equal((AlarmState.Unacknowledged, AlarmState.Normal, true), (closed.Before, closed.Status.State, closed.Announce));
        Assert.Empty(board.Assess(vat.Condition, WatchedVat.At(TimeSpan.FromSeconds(2))));
    }

    [Fact]
    public void A_measurement_of_another_vat_changes_nothing()
    {
        var vat = new WatchedVat();
        Assert.Empty(vat.Board.Accept(new(new("other"), new("elsewhere"), Measures.Temperature, WatchedVat.At(TimeSpan.Zero), 90, 90, Quality.Good, null, null)));
    }

    [Fact]
    public void A_measurement_older_than_the_newest_is_left_out()
    {
        var settings = AlarmSettings.Default.With(Overheat, rule => rule with { OnDelay = TimeSpan.Zero });
        var vat = new WatchedVat(settings).Pass(10, Cool);
        var late = new VatWatch.Measurements.Measurement(vat.Vat.Id, new("liquor"), Measures.Temperature, WatchedVat.At(TimeSpan.FromSeconds(3)), 90, 90, Quality.Good, null, null);
        Assert.Empty(vat.Board.Accept(late));
    }

    [Fact]
    public void A_value_that_is_not_a_number_is_no_value()
    {
        var vat = new WatchedVat().Pass(20, it => it.Measure("liquor", double.NaN));
        Assert.Equal(AlarmState.Normal, vat.State(Overheat));
        Assert.Equal(AlarmState.Unacknowledged, vat.State("probe-silent.liquor"));
    }

    private static WatchedVat Overheated() => new WatchedVat().Pass(12, Hot);

    private static void Hot(WatchedVat vat) => MeasureAll(vat, WatchedVat.F(122));

    private static void Cool(WatchedVat vat) => MeasureAll(vat, WatchedVat.F(110));

    private static void MeasureAll(WatchedVat vat, double temperatureC)
    {
        vat.Measure("liquor", temperatureC);
        vat.Measure("redox", -720);
        vat.Measure("alkali", 10);
    }
}
