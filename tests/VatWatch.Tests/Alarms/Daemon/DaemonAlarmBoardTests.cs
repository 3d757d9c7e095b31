using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Daemon;
using VatWatch.Alarms.Rules;

namespace VatWatch.Tests.Alarms.Daemon;

public sealed class DaemonAlarmBoardTests
{
    [Fact]
    public void A_signal_raises_its_alarm_under_the_vat_of_the_daemon()
    {
        var board = new DaemonAlarmBoard();
        var change = Assert.Single(Signal(board, 0, "store-fault", true, "The disk of this night watch is full."));
        Assert.Equal((VatId.Daemon, AlarmState.Unacknowledged, AlarmPriority.High, true), (change.Status.Vat, change.Status.State, change.Status.Priority, change.Announce));
        Assert.Equal("The disk of this night watch is full.", change.Status.Text.In(DisplayUnits.Us));
        Assert.Contains("Alarms still work", change.Status.Action, StringComparison.Ordinal);
    }

    [Fact]
    public void A_broker_that_is_away_for_a_moment_is_no_alarm()
    {
        var board = new DaemonAlarmBoard();
        Assert.Empty(Signal(board, 0, "broker-lost", true, "The broker is away."));
        Assert.Empty(board.Assess(At(29)));
        Assert.Empty(Signal(board, 29.5, "broker-lost", false, "The broker is back."));
        Assert.Empty(board.Assess(At(600)));
    }

    [Fact]
    public void Delays_and_reminders_run_without_new_signals()
    {
        var board = new DaemonAlarmBoard();
        Signal(board, 0, "bus-lost.bench", true, "Bus bench is gone.");
        Assert.Equal(AlarmState.Unacknowledged, Assert.Single(board.Assess(At(10))).Status.State);
        Assert.True(Assert.Single(board.Assess(At(610))).Announce);
    }

    [Fact]
    public void Unknown_keeps_what_stands()
    {
        var board = new DaemonAlarmBoard();
        Signal(board, 0, "store-fault", true, "The disk is full.");
        Assert.Empty(Signal(board, 1, "store-fault", null, "The disk does not answer."));
        Assert.Empty(board.Assess(At(500)));
        Assert.Equal(AlarmState.Unacknowledged, Assert.Single(board.All).State);
    }

    [Fact]
    public void An_alarm_is_acknowledged_restored_and_returns()
    {
        var board = new DaemonAlarmBoard();
        Signal(board, 0, "calibration-due.alkali", true, "The calibration of probe alkali is 40 days old.");
        Assert.Single(board.Carry(new(AlarmActKind.Acknowledge, VatId.Daemon, new("calibration-due.alkali"), "Ada", "page"), At(1)));
        Assert.Empty(board.Carry(new(AlarmActKind.Acknowledge, VatId.Daemon, new("calibration-due.redox"), "Ada", "page"), At(1)));

        var restarted = new DaemonAlarmBoard();
        restarted.Restore(board.All, At(0));
        Assert.Equal(board.All, restarted.All);
        Signal(restarted, 1, "calibration-due.alkali", false, "Probe alkali is freshly calibrated.");
        Assert.Equal(AlarmState.Normal, Assert.Single(restarted.All).State);
    }

    [Fact]
    public void An_alarm_of_an_earlier_run_that_nothing_speaks_of_any_more_returns()
    {
        var board = new DaemonAlarmBoard();
        Signal(board, 0, "bus-lost.bench", true, "Bus bench is gone.");
        board.Assess(At(10));
        var restarted = new DaemonAlarmBoard();
        restarted.Restore(board.All, At(0));
        Assert.Empty(restarted.Assess(At(599)));
        restarted.Assess(At(600));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, Assert.Single(restarted.Assess(At(661))).Status.State);

        var spoken = new DaemonAlarmBoard();
        spoken.Restore(board.All, At(0));
        Signal(spoken, 5, "bus-lost.bench", true, "Bus bench is gone.");
        Assert.DoesNotContain(spoken.Assess(At(4000)), change => change.Status.State != AlarmState.Unacknowledged);
    }

    [Fact]
    public void A_kind_that_is_none_is_refused_and_one_that_is_off_is_silent()
    {
        Assert.Throws<ArgumentException>(() => Signal(new DaemonAlarmBoard(), 0, "overheat", true, "no"));
        var off = new DaemonAlarmBoard(AlarmSettings.ReadDaemon(null).With("store-fault", rule => rule with { Enabled = false }));
        Assert.Empty(Signal(off, 0, "store-fault", true, "The disk is full."));
        Assert.Empty(off.All);
    }

    [Theory]
    [InlineData("store-fault")]
    [InlineData("broker-lost")]
    [InlineData("clock-untrusted")]
    [InlineData("stage-restarted")]
    [InlineData("bus-lost.bench")]
    [InlineData("calibration-due.alkali")]
    public void Every_alarm_has_its_record_of_rationalisation(string alarm)
    {
        var board = new DaemonAlarmBoard();
        Signal(board, 0, alarm, false, "All is well.");
        Assert.DoesNotContain("", new[] { board.RationaleOf(new(alarm))!.Action, board.RationaleOf(new(alarm))!.Cause });
        Assert.Single(board.Carry(new(AlarmActKind.Shelve, VatId.Daemon, new(alarm), "Ada", "page") { For = TimeSpan.FromMinutes(5), Text = "known" }, At(1)));
        Assert.Single(board.Carry(new(AlarmActKind.Unshelve, VatId.Daemon, new(alarm), "Ada", "page"), At(2)));
    }

    private static IReadOnlyList<AlarmChange> Signal(DaemonAlarmBoard board, double second, string alarm, bool? active, string sentence) =>
        board.Signal(new(new(alarm), active, sentence), At(second));

    private static VatWatch.Time.Stamp At(double second) => WatchedVat.At(TimeSpan.FromSeconds(second));

    [Theory]
    [InlineData(AlarmPriority.Critical)]
    [InlineData(AlarmPriority.Medium)]
    public void A_lost_bus_matters_as_much_as_the_most_important_probe_on_it_and_names_them(AlarmPriority guards)
    {
        var board = new DaemonAlarmBoard();
        Stamp At(double second) => new(WatchedVat.Midnight.AddSeconds(second), TimeSpan.FromSeconds(second), true);
        Assert.Empty(board.Signal(BusLostAlarm.Signal(new("bench"), "it was unplugged", ["liquor of Madder Lane vat", "alkali of Madder Lane vat"], guards), At(0)));
        var status = Assert.Single(board.Assess(At(11))).Status;
        Assert.Equal((guards, "Bus bench is lost, nobody watches liquor of Madder Lane vat, alkali of Madder Lane vat: it was unplugged."), (status.Priority, status.Text.ToString()));
    }
}
