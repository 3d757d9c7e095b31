using CsCheck;
using VatWatch.Alarms;
using VatWatch.Time;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Alarms;

public sealed class AlarmJournalTests
{
    private static readonly Gen<string?> Text = Gen.String.Select(text => (string?)text.Replace("\0", "", StringComparison.Ordinal));

    private static readonly Gen<Stamp> Moment = Gen.Select(
        Gen.Long[0, 10_000_000_000], Gen.Long[0, 10_000_000_000], Gen.Bool, (utc, monotonic, trusted) => new Stamp(Dusk.AddTicks(utc), new(monotonic), trusted));

    private static readonly Gen<double?> Number = Gen.OneOf(Gen.Const((double?)null), Gen.Double[-1e6, 1e6].Select(d => (double?)d));

    private static readonly Gen<AlarmChange> Change = Gen.Select(
        Gen.Enum<AlarmState>(),
        Gen.Select(
            Gen.Int[0, 2].Select(i => ((string[])["overheat", "cold", "probe-silent.liquor"])[i]),
            Gen.Enum<AlarmState>(),
            Gen.Enum<AlarmPriority>(),
            Moment,
            Gen.Select(Number, Number),
            Gen.Select(Text, Text, Text),
            Gen.OneOf(Gen.Const((string?)null), Text),
            (alarm, state, priority, since, numbers, words, by) => new AlarmStatus
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
                AcknowledgedBy = by,
                AcknowledgedAt = by is null ? null : since.Utc.AddSeconds(1),
            }),
        Moment,
        Gen.OneOf(Gen.Const((string?)null), Text),
        Gen.Bool,
        (before, status, stamp, by, announce) => new AlarmChange(before, status, stamp, by, announce));

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
            Value = 121.3,
            Limit = 120,
            Unit = "°F",
            Text = "Madder Lane vat is at 121.3 °F, over its limit of 120.0 °F.",
            Action = "Switch the heater off.",
        };
        return new(AlarmState.Normal, status, stamp, null, true);
    }
}
