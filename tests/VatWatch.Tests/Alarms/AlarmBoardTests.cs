using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Rules;
using VatWatch.Conditions;

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
            Assert.EndsWith(".", status.Text.In(DisplayUnits.Us), StringComparison.Ordinal);
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
        Assert.Equal(123.1, reminder.Status.In(DisplayUnits.Us).Value);
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
            vat.Vat.Id, new("liquor"), Quantity.Temperature, WatchedVat.At(vat.Now), 44, 44, Quality.Good, null, null);
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
        Assert.Equal("Madder Lane vat is too hot: 122.0 °F, limit 120.0 °F.", vat.Status(Overheat).Text.In(DisplayUnits.Us));
    }

    [Fact]
    public void A_shelf_goes_on_over_a_restart_for_what_is_left_of_it()
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 20);
        var shelved = vat.Board.All;
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default);
        var later = WatchedVat.At(vat.Now + TimeSpan.FromMinutes(15)) with { Monotonic = TimeSpan.Zero };
        board.Restore(shelved, later);
        Assert.DoesNotContain(board.Assess(vat.Condition, later.Plus(TimeSpan.FromSeconds(1))), change => change.Status.Alarm.Value == Overheat);
        var back = board.Assess(vat.Condition, later.Plus(TimeSpan.FromMinutes(5))).Single(change => change.Status.Alarm.Value == Overheat);
        Assert.Equal(AlarmState.Shelved, back.Before);
    }

    [Theory]
    [InlineData(0, true, 20)]
    [InlineData(15, true, 5)]
    [InlineData(25, true, 0)]
    [InlineData(-60, true, 0)]
    [InlineData(5, false, 0)]
    public void The_end_of_a_shelf_goes_by_the_labels_and_no_doubtful_clock_lengthens_it(int awayMinutes, bool trusted, int leftMinutes)
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 20);
        vat.Restart(TimeSpan.FromMinutes(awayMinutes), trusted);
        var seconds = 0;
        while (vat.State(Overheat) == AlarmState.Shelved && seconds < 3600)
        {
            vat.Pass(1, Hot);
            seconds++;
        }

        Assert.InRange(seconds, leftMinutes * 60, (leftMinutes * 60) + 1);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void One_that_was_shelved_by_a_doubtful_clock_comes_back_at_the_restart()
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 20);
        var kept = vat.Board.All.Select(status => status with { SetAside = status.SetAside is { } aside ? aside with { Trusted = false } : null }).ToList();
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default);
        board.Restore(kept, WatchedVat.At(vat.Now));
        Assert.Contains(board.Assess(vat.Condition, WatchedVat.At(vat.Now)), change => change is { Before: AlarmState.Shelved, Announce: true });
    }

    [Fact]
    public void Out_of_service_and_its_reason_stay_over_a_restart()
    {
        var vat = Overheated();
        vat.Do(AlarmActKind.TakeOutOfService, Overheat, "probe sent for repair");
        vat.Restart(TimeSpan.FromDays(3)).Pass(600, Hot);
        Assert.Equal((AlarmState.OutOfService, "probe sent for repair", "Ada"), (vat.State(Overheat), vat.Status(Overheat).SetAside?.Because, vat.Status(Overheat).SetAside?.By));
    }

    [Fact]
    public void What_was_suppressed_before_a_restart_rings_for_no_lack_of_readings()
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { State = VatState.Oxidised, OrpMillivolts = -500, OrpRateMillivoltsPerHour = 60 };
        vat.Pass(300);
        Assert.Equal(AlarmState.Suppressed, vat.State("redox-rising"));
        var before = vat.Changes.Count;
        var oxidised = vat.Condition;
        vat.Condition = vat.Ready() with { State = VatState.Unknown, OrpMillivolts = null, OrpRateMillivoltsPerHour = null };
        vat.Restart().Pass(10);
        vat.Condition = oxidised;
        vat.Pass(60);
        Assert.Equal(AlarmState.Suppressed, vat.State("redox-rising"));
        Assert.DoesNotContain(vat.Changes.Skip(before), change => change.Status.Alarm.Value == "redox-rising");
    }

    [Fact]
    public void An_alarm_never_raised_is_normal_since_the_start_and_asks_for_nothing()
    {
        var vat = new WatchedVat();
        vat.Pass(5, Cool);
        Assert.All(vat.Board.All, status => Assert.Equal((AlarmState.Normal, WatchedVat.Midnight.AddSeconds(1), "Nothing to do."), (status.State, status.Since.Utc, status.Action)));
    }

    [Fact]
    public void An_alarm_that_has_gone_asks_for_a_look_and_no_longer_for_its_action()
    {
        var vat = Overheated();
        Assert.StartsWith("Unplug the heater", vat.Status(Overheat).Action, StringComparison.Ordinal);
        vat.Pass(125, Cool);
        Assert.Equal((AlarmState.ReturnedUnacknowledged, "This alarm is over. Check the vat, then acknowledge."), (vat.State(Overheat), vat.Status(Overheat).Action));
        Assert.Equal("Nothing to do.", Assert.Single(vat.Acknowledge(Overheat)).Status.Action);
    }

    [Fact]
    public void A_note_stands_beside_an_alarm_or_the_vat_and_changes_nothing()
    {
        var vat = Overheated();
        var before = vat.Board.All;
        var beside = Assert.Single(vat.Do(AlarmActKind.Note, Overheat, "the lid was shut"));
        var about = Assert.Single(vat.Do(AlarmActKind.Note, AlarmName.Note.Value, "all well"));
        Assert.Equal(("the lid was shut", "Ada", "page", false, AlarmState.Unacknowledged), (beside.Note, beside.By, beside.Via, beside.Announce, beside.Status.State));
        Assert.Equal(("all well", "note"), (about.Note, about.Status.Alarm.Value));
        Assert.Equal(before, vat.Board.All);
        Assert.Empty(vat.Do(AlarmActKind.Note, "no-such-alarm", "x"));
    }

    [Fact]
    public void A_value_that_crosses_its_limit_every_second_for_an_hour_calls_once_per_hold_time_at_most_and_hides_no_excursion()
    {
        var vat = new WatchedVat();
        vat.Pass(3600, it => MeasureAll(it, WatchedVat.F(it.Now.TotalSeconds % 2 == 0 ? 119.8 : 120.2)));
        // The off-delay of overheat is 2 min, its reminder comes every 5 min.
        var told = vat.ChangesOf(Overheat).Where(change => change.Announce).Select(change => change.Stamp.Monotonic).ToList();
        Assert.InRange(told.Count, 1, 3600 / 120);
        Assert.All(told.Zip(told.Skip(1)), pair => Assert.True(pair.Second - pair.First >= TimeSpan.FromMinutes(2)));
        Assert.InRange(told[0].TotalSeconds, 1, 60);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));

        vat.Acknowledge(Overheat);
        vat.Pass(300, Cool);
        Assert.Equal(AlarmState.Normal, vat.State(Overheat));
        vat.Pass(11, Hot);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Overheat));
    }

    [Fact]
    public void Without_delays_and_deadband_such_a_value_is_shelved_as_chatter_said_so_and_told_when_it_stays()
    {
        var bare = AlarmSettings.Default.With("alkali-high", rule => rule with { OnDelay = TimeSpan.Zero, OffDelay = TimeSpan.Zero, Deadband = 0 });
        var vat = new WatchedVat(bare);
        vat.Pass(3600, it => it.Condition = it.Condition with { Ph = it.Now.TotalSeconds % 2 == 0 ? 10.4 : 10.6 });
        var shelved = vat.ChangesOf("alkali-high").Where(change => change.Status.State == AlarmState.Shelved).ToList();
        Assert.InRange(shelved.Count, 1, 2);
        Assert.All(shelved, change => Assert.True(change is { Announce: true, By: null }));
        Assert.Contains("It came and went 3 times within a minute and is set aside for 30 min.", shelved[0].Status.Text.In(DisplayUnits.Us), StringComparison.Ordinal);
        Assert.InRange(vat.Announced("alkali-high"), 3, 15);
        vat.Pass(1900, it => it.Condition = it.Condition with { Ph = 10.6 });
        Assert.Equal(AlarmState.Unacknowledged, vat.State("alkali-high"));
    }

    [Fact]
    public void Restarts_do_not_lengthen_a_shelf_whose_end_was_not_kept()
    {
        var vat = Overheated();
        vat.Shelve(Overheat, 30);
        var kept = vat.Board.All.Select(status => status with { SetAside = null }).ToList();
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default);
        var later = WatchedVat.At(vat.Now + TimeSpan.FromMinutes(31)) with { Monotonic = TimeSpan.Zero };
        board.Restore(kept, later);
        Assert.Contains(board.Assess(vat.Condition, later), change => change.Before == AlarmState.Shelved);
    }

    [Fact]
    public void An_alarm_the_configuration_no_longer_knows_is_closed_aloud()
    {
        var vat = Overheated();
        var board = new AlarmBoard(vat.Vat, AlarmSettings.Default.With(Overheat, rule => rule with { Enabled = false }));
        board.Restore(vat.Board.All, WatchedVat.At(TimeSpan.Zero));
        var closed = Assert.Single(board.Assess(vat.Condition, WatchedVat.At(TimeSpan.FromSeconds(1))));
        Assert.Equal((AlarmState.Unacknowledged, AlarmState.Normal, true), (closed.Before, closed.Status.State, closed.Announce));
        Assert.Empty(board.Assess(vat.Condition, WatchedVat.At(TimeSpan.FromSeconds(2))));
    }

    [Fact]
    public void A_measurement_of_another_vat_changes_nothing()
    {
        var vat = new WatchedVat();
        Assert.Empty(vat.Board.Accept(new(new("other"), new("elsewhere"), Quantity.Temperature, WatchedVat.At(TimeSpan.Zero), 90, 90, Quality.Good, null, null)));
    }

    [Fact]
    public void A_measurement_older_than_the_newest_is_left_out()
    {
        var settings = AlarmSettings.Default.With(Overheat, rule => rule with { OnDelay = TimeSpan.Zero });
        var vat = new WatchedVat(settings).Pass(10, Cool);
        var late = new VatWatch.Measurements.Measurement(vat.Vat.Id, new("liquor"), Quantity.Temperature, WatchedVat.At(TimeSpan.FromSeconds(3)), 90, 90, Quality.Good, null, null);
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
