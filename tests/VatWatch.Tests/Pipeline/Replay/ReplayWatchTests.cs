using VatWatch.Alarms;
using VatWatch.Alarms.Rules;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Measurements;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Replay;
using VatWatch.Probes.Recorded;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline.Replay;

public sealed class ReplayWatchTests
{
    private static readonly DateTimeOffset Dusk = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    /// <summary>The limit of the vat is 48.889 °C; the default on-delay of overheat is 10 s (design, alarms).</summary>
    [Fact]
    public void An_alarm_is_raised_at_the_moment_the_daemon_would_have_raised_it()
    {
        var heard = Replay(Liquor(0, 600, seconds => seconds < 300 ? 48 : 50));
        var raised = heard.Changes.First(change => change.Status.Alarm.Value == "overheat" && change.Status.State == AlarmState.Unacknowledged);
        Assert.InRange((raised.Stamp.Utc - Dusk).TotalSeconds, 310, 311);
    }

    [Fact]
    public void The_same_log_gives_the_same_answers()
    {
        var rows = Liquor(0, 4 * 3600, seconds => 18 + 8 * seconds / 3600.0 + 0.05 * Math.Sin(seconds)).ToList();
        Assert.Equal(Replay(rows).Story, Replay(rows).Story);
    }

    [Fact]
    public void A_hole_in_the_log_is_a_silence_and_a_longer_one_does_not_take_for_ever()
    {
        var rows = Liquor(0, 60, _ => 40).Concat(Liquor(3600 * 24 * 365 * 50, 60, _ => 40));
        var heard = Replay(rows);
        Assert.Contains(heard.Changes, change => change.Status.Alarm.Value == "probe-silent.liquor" && change.Status.State == AlarmState.Unacknowledged);
        Assert.InRange(heard.Conditions, 600, 3000);
    }

    [Theory]
    [InlineData("liquor", null, -5, "before the line above it")]
    [InlineData("elsewhere", null, 5, "wanted one of vat 'madder-lane': liquor, liquor-ph, liquor-orp")]
    [InlineData("else\u001b[2Jwhere\u202e", null, 5, "probe is \"else[2Jwhere\"; wanted")]
    [InlineData("liquor", "\u001bK\u2066", 5, "unit is \"K\"; wanted")]
    [InlineData("liquor", "K", 5, "wanted \"°C\"")]
    [InlineData("liquor", "°C", 5, "wanted all or none")]
    public void A_row_that_does_not_fit_is_left_out_with_the_reason(string probe, string? unit, int seconds, string says)
    {
        var watch = new ReplayWatch(Plan(), DisplayUnits.Us, new CalibrationCache(), new Listener());
        Assert.Null(watch.Take(Row(2, "liquor", 0, 40)));
        Assert.Contains(says, watch.Take(Row(3, probe, seconds, 40) with { Unit = unit }), StringComparison.Ordinal);
        Assert.Null(watch.Take(Row(4, "liquor", 5, 40)));
    }

    [Fact]
    public void A_row_without_a_value_is_a_missing_reading_and_a_fault_stays_one()
    {
        var heard = Replay(
        [
            Row(2, "liquor", 0, 40), Row(3, "liquor", 5, null),
            Row(4, "liquor", 10, null) with { Quality = Quality.Fault, Reason = "the wire is open" },
            Row(5, "liquor", 15, 40) with { Quality = Quality.Suspect, Reason = "repeats one value" },
        ]);
        Assert.Equal(
            [(Quality.Good, null), (Quality.Missing, "no value in the log"), (Quality.Fault, "the wire is open"), (Quality.Suspect, "repeats one value")],
            heard.Measurements.Select(one => (one.Quality, one.Reason)));
    }

    /// <summary>A liquor at 20 °C that does not rise at all: nothing to tell of a vat that is left alone, a fault of one whose heater was switched on.</summary>
    [Fact]
    public void A_heater_that_was_switched_on_and_warms_nothing_is_told_and_one_that_was_not_is_not()
    {
        var rows = Liquor(0, 3 * 3600, _ => 20).ToList();
        static bool Fails(AlarmChange change) => change.Status.Alarm.Value == "warming-fault" && change.Status.State == AlarmState.Unacknowledged;

        Assert.DoesNotContain(Replay(rows).Changes, Fails);
        var told = Replay(rows, Entry(10, EntryKind.HeaterOn)).Changes.First(Fails);
        Assert.InRange((told.Stamp.Utc - Dusk).TotalMinutes, 30, 55);
        Assert.DoesNotContain(
            Replay(rows, Entry(10, EntryKind.HeaterOn), Entry(12, EntryKind.HeaterOff)).Changes, Fails);
    }

    [Fact]
    public void An_entry_from_before_the_first_row_counts_from_its_own_time()
    {
        var heard = Replay(Liquor(0, 60, _ => 20), Entry(-5, EntryKind.HeaterOn) with { ReadyBy = Dusk.AddHours(9) });
        Assert.Equal((Dusk.AddMinutes(-5), Dusk.AddHours(9)), (heard.WarmUp!.Since.Utc, heard.WarmUp.ReadyBy));
    }

    private static SessionEntry Entry(int minutesAfterDusk, EntryKind kind) =>
        new() { Id = 2, Vat = new("weld-yard"), Kind = kind, At = new(Dusk.AddMinutes(minutesAfterDusk), default, true), By = "" };

    private static Listener Replay(IEnumerable<RecordedRow> rows, params SessionEntry[] entries)
    {
        var heard = new Listener();
        var watch = new ReplayWatch(Plan(), DisplayUnits.Us, new CalibrationCache(), heard);
        watch.Take(entries);
        foreach (var row in rows)
        {
            Assert.Null(watch.Take(row));
        }

        watch.End();
        return heard;
    }

    private static IEnumerable<RecordedRow> Liquor(long from, int length, Func<int, double> valueC) =>
        Enumerable.Range(0, length / 5).Select(i => Row(i + 2, "liquor", from + 5L * i, valueC(5 * i)));

    private static RecordedRow Row(int line, string probe, long seconds, double? value) => new(line, Dusk.AddSeconds(seconds), new ProbeId(probe), value);

    private static VatPlan Plan() => new(SampleVats.MadderLane(), [], AlarmSettings.Default);

    private sealed class Listener : IReplayListener
    {
        public List<AlarmChange> Changes { get; } = [];

        public List<Measurement> Measurements { get; } = [];

        public List<string> Story { get; } = [];

        public int Conditions { get; private set; }

        public WarmUp? WarmUp { get; private set; }

        public void Observe(Measurement measurement)
        {
            Measurements.Add(measurement);
            Story.Add(measurement.ToString());
        }

        public void Observe(VatCondition condition)
        {
            Conditions++;
            WarmUp = condition.WarmUp;
            Story.Add($"{condition.Stamp} {condition.State} {string.Join(' ', condition.Reasons)} {condition.TimeToBand} {condition.TimeToLimit}");
        }

        public void Observe(AlarmChange change)
        {
            Changes.Add(change);
            Story.Add(change.ToString());
        }
    }
}
