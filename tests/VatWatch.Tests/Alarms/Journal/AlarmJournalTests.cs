using CsCheck;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Journal;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Alarms.Journal;

public sealed class AlarmJournalTests
{
    private static readonly Gen<string?> Text = Gen.String.Select(text => (string?)text.Replace("\0", "", StringComparison.Ordinal));

    private static readonly Gen<Stamp> Moment = Gen.Select(
        Gen.Long[0, 10_000_000_000], Gen.Long[0, 10_000_000_000], Gen.Bool, (utc, monotonic, trusted) => new Stamp(Dusk.AddTicks(utc), new(monotonic), trusted));

    private static readonly Gen<double?> Number = Gen.OneOf(Gen.Const((double?)null), Gen.Double[-1e6, 1e6].Select(d => (double?)d));

    private static readonly Gen<SettingAside?> Aside = Gen.OneOf(
        Gen.Const((SettingAside?)null),
        Gen.Select(Text, Moment, Text, Gen.OneOf(Gen.Const(0), Gen.Int[1, 600]), (by, at, because, minutes) =>
            (SettingAside?)new SettingAside(by, at.Utc, at.UtcTrusted, because!, minutes == 0 ? null : at.Utc.AddMinutes(minutes))));

    private static readonly Gen<AlarmChange> Change = Gen.Select(
        Gen.Enum<AlarmState>(),
        Gen.Select(
            Gen.Int[0, 2].Select(i => ((string[])["overheat", "cold", "probe-silent.liquor"])[i]),
            Gen.Enum<AlarmState>(),
            Gen.Enum<AlarmPriority>(),
            Moment,
            Gen.Select(Number, Number),
            Gen.Select(Text, Text, Text),
            Gen.Select(Gen.OneOf(Gen.Const((string?)null), Text), Aside, Gen.Bool),
            (alarm, state, priority, since, numbers, words, acts) => new AlarmStatus
            {
                Vat = Madder,
                Alarm = new(alarm),
                State = state,
                Priority = priority,
                Since = since,
                Value = numbers.Item1,
                Limit = numbers.Item2,
                Unit = words.Item1!,
                Text = words.Item2!,
                Action = words.Item3!,
                AcknowledgedBy = acts.Item1,
                AcknowledgedAt = acts.Item1 is null ? null : since.Utc.AddSeconds(1),
                SetAside = acts.Item2,
                Stands = acts.Item3,
            }),
        Moment,
        Gen.OneOf(Gen.Const((string?)null), Text),
        Gen.Bool,
        (before, status, stamp, by, announce) => new AlarmChange(before, status, stamp, by, announce) { Via = by is null ? null : "page" });

    [Fact]
    public async Task Every_change_comes_back_identical_and_the_last_of_each_alarm_is_its_state()
    {
        await using var rig = Start();
        List<AlarmChange> made = [];
        Change.Sample(
            change =>
            {
                rig.WriteAsync(transaction => Append(transaction, change)).GetAwaiter().GetResult();
                made.Add(change);
            },
            iter: 100,
            threads: 1);

        Assert.Equal(made.OrderBy(change => change.Stamp.Utc), rig.Read(reader => AlarmJournal.Changes(reader, null, Dusk, Dusk.AddDays(1))));
        Assert.Equal(
            made.GroupBy(change => change.Status.Alarm.Value).OrderBy(group => group.Key, StringComparer.Ordinal).Select(group => group.Last().Status),
            rig.Read(reader => AlarmJournal.Current(reader)));
    }

    [Fact]
    public async Task A_change_appended_again_because_its_commit_was_not_heard_of_stands_once()
    {
        await using var rig = Start();
        await rig.WriteAsync(transaction => Append(transaction, Standing(5)));
        await rig.WriteAsync(transaction => Append(transaction, Standing(5)));
        Assert.Equal([Standing(5)], rig.Read(reader => AlarmJournal.Changes(reader, null, Dusk, Dusk.AddDays(1))));
    }

    [Fact]
    public async Task Changes_are_those_of_the_vat_and_the_time_asked_for()
    {
        await using var rig = Start();
        foreach (var (vat, second) in new[] { (Madder, 0), (Madder, 10), (Weld, 10), (Madder, 20) })
        {
            await rig.WriteAsync(transaction => Append(transaction, Standing(second, vat.Value)));
        }

        Assert.Equal([Standing(10)], rig.Read(reader => AlarmJournal.Changes(reader, Madder, Dusk.AddSeconds(10), Dusk.AddSeconds(20))));
        Assert.Equal(2, rig.Read(reader => AlarmJournal.Changes(reader, null, Dusk.AddSeconds(10), Dusk.AddSeconds(20))).Count);
    }

    [Fact]
    public async Task An_alarm_of_an_earlier_run_is_placed_on_the_present_clock_by_its_label()
    {
        var folder = NewFolder();
        var first = Start(folder: folder);
        await first.WriteAsync(transaction => Append(transaction, Standing(60)));
        await first.StopAsync();
        var second = Start(folder: folder);
        var now = new Stamp(Dusk.AddSeconds(360), TimeSpan.FromSeconds(2), true);

        var restored = Assert.Single(second.Read(reader => AlarmJournal.Current(reader, now)));

        Assert.Equal(TimeSpan.FromSeconds(300), now.Since(restored.Since));
        Assert.Equal(Standing(60).Status, restored with { Since = Standing(60).Status.Since });
        Assert.Equal(Standing(60).Status.Since.Utc, restored.Since.Utc);
        Assert.Equal(TimeSpan.Zero, Assert.Single(second.Read(reader => AlarmJournal.Current(reader))).Since.Monotonic);
        // A clock that was wrong then or is now: never in the future.
        var tooEarly = now with { Utc = Dusk };
        Assert.Equal(TimeSpan.Zero, tooEarly.Since(Assert.Single(second.Read(reader => AlarmJournal.Current(reader, tooEarly))).Since));
        await second.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("overheat", "°F", 121.3, 120, "°C", 49.6111, 48.8889)]
    [InlineData("overheat", "°C", 49.6, 48.9, "°C", 49.6, 48.9)]
    [InlineData("probe-disagrees.temperature", "°F", 2.7, 1.8, "K", 1.5, 1)]
    [InlineData("probe-disagrees.temperature", "°C", 1.5, 1, "K", 1.5, 1)]
    [InlineData("redox-weak", "mV", -640, -660, "mV", -640, -660)]
    public async Task Numbers_that_an_older_version_kept_in_the_units_of_its_display_are_read_as_what_they_were(
        string alarm, string kept, double value, double limit, string unit, double valueNow, double limitNow)
    {
        await using var rig = Start();
        var old = Standing(5) with { Status = Standing(5).Status with { Alarm = new(alarm), Value = value, Limit = limit, Unit = kept } };
        await rig.WriteAsync(transaction => Append(transaction, old));
        foreach (var status in new[] { Assert.Single(rig.Read(reader => AlarmJournal.Current(reader))), Assert.Single(rig.Read(reader => AlarmJournal.Newest(reader, Madder, null, 10))).Status })
        {
            Assert.Equal((unit, valueNow, limitNow), (status.Unit, Math.Round(status.Value!.Value, 4), Math.Round(status.Limit!.Value, 4)));
            Assert.Equal(value, status.In(kept == "°F" ? DisplayUnits.Us : DisplayUnits.Si).Value);
            Assert.Equal(old.Status.Text, status.Text);
        }
    }

    [Fact]
    public async Task A_note_is_a_line_of_the_journal_and_leaves_the_alarm_as_it_stood()
    {
        await using var rig = Start();
        var note = Standing(9) with { Before = AlarmState.Unacknowledged, By = "Ada", Via = "mqtt", Note = "the lid was shut", Announce = false };
        var other = note with { Note = "and again" };
        await rig.WriteAsync(transaction => Append(transaction, Standing(5)) + Append(transaction, note) + Append(transaction, note) + Append(transaction, other));
        await rig.WriteAsync(transaction => Append(transaction, AlarmChange.NoteOf(new(AlarmActKind.Note, Madder, AlarmName.Note, "Ada", "page") { Text = "all well" }, note.Stamp)));

        Assert.Equal(["all well", "and again", "the lid was shut", null], rig.Read(reader => AlarmJournal.Newest(reader, Madder, null, 10)).Select(line => line.Note));
        Assert.Equal([Standing(5).Status], rig.Read(reader => AlarmJournal.Current(reader)));
    }

    [Fact]
    public async Task The_newest_lines_come_first_and_no_more_than_asked_for()
    {
        await using var rig = Start();
        await rig.WriteAsync(transaction => Enumerable.Range(0, 50).Sum(second => Append(transaction, Standing(second, second % 2 == 0 ? Madder.Value : Weld.Value))));

        Assert.Equal([Standing(48), Standing(46), Standing(44)], rig.Read(reader => AlarmJournal.Newest(reader, Madder, null, 3)));
        Assert.Equal([Standing(8), Standing(6)], rig.Read(reader => AlarmJournal.Newest(reader, Madder, Dusk.AddSeconds(10), 2)));
        Assert.Equal([Standing(49, Weld.Value), Standing(48)], rig.Read(reader => AlarmJournal.Newest(reader, null, null, 2)));
        Assert.Contains("USING INDEX alarm_change_vat", Plan("AND vat = 'x'"), StringComparison.Ordinal);
        Assert.Contains("USING INDEX alarm_change_utc", Plan(""), StringComparison.Ordinal);

        string Plan(string where) => rig.Read(reader => string.Join("; ", reader.Sql.Query(
            $"EXPLAIN QUERY PLAN SELECT * FROM alarm_change WHERE utc < 5 {where} ORDER BY utc DESC, id DESC LIMIT 3", row => row.GetString(3))));
    }

    [Fact]
    public async Task The_opening_is_the_last_transition_of_each_alarm_before_a_moment()
    {
        await using var rig = Start();
        await rig.WriteAsync(transaction => Append(transaction, Standing(1)) + Append(transaction, Standing(2)) + Append(transaction, Standing(2, Weld.Value)) + Append(transaction, Standing(9)));
        await rig.WriteAsync(transaction => Append(transaction, Standing(3) with { By = "Ada", Note = "a note is no transition" }));
        Assert.Equal([Standing(2), Standing(2, Weld.Value)], rig.Read(reader => AlarmJournal.Opening(reader, Dusk.AddSeconds(9))));
    }

    private static int Append(VatWatch.Store.StoreTransaction transaction, AlarmChange change)
    {
        AlarmJournal.Append(transaction, change);
        return 0;
    }

    private static AlarmChange Standing(double second, string vat = "madder-lane")
    {
        var stamp = Reading(second).Stamp;
        var status = new AlarmStatus
        {
            Vat = new(vat),
            Alarm = new("overheat"),
            State = AlarmState.Unacknowledged,
            Priority = AlarmPriority.Critical,
            Since = stamp,
            Value = 49.6,
            Limit = 48.9,
            Unit = "°C",
            Text = "Madder Lane vat is at 121.3 °F, over its limit of 120.0 °F.",
            Action = "Switch the heater off.",
            Stands = true,
        };
        return new(AlarmState.Normal, status, stamp, null, true);
    }
}
