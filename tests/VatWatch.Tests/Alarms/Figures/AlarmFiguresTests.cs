using System.Globalization;
using VatWatch.Alarms;
using VatWatch.Alarms.Figures;

namespace VatWatch.Tests.Alarms.Figures;

/// <summary>Weeks written as rows "hh:mm:ss alarm before state [by]", counted from the start of the week; expected figures worked out by hand.</summary>
public sealed class AlarmFiguresTests
{
    private static readonly DateTimeOffset From = new(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset To = From.AddDays(7);

    [Theory]
    [InlineData("nothing at all", "", 0, 0, "", "", null, null, 0)]
    [InlineData("one, seen after 4 min", "1:00:00 overheat N U | 1:04:00 overheat U A Ada | 1:30:00 overheat A N", 1, 1, "", "", 240, 240, 0)]
    [InlineData("reminders are not counted", "1:00:00 overheat N U | 1:05:00 overheat U U | 1:10:00 overheat U U", 1, 1, "", "overheat 1", null, null, 1)]
    [InlineData("an acknowledged one that is told again is not a new one", "1:00:00 cold N U | 1:01:00 cold U A Ada | 1:31:00 cold A U | 1:33:00 cold U A Ada | 1:40:00 cold A N", 1, 1, "", "", 60, 60, 0)]
    [InlineData("acknowledged after it had gone", "1:00:00 cold N U | 1:01:00 cold U R | 1:10:00 cold R N Ada", 1, 1, "", "", 600, 600, 0)]
    [InlineData("came again unseen: waits since the first time", "1:00:00 cold N U | 1:01:00 cold U R | 1:05:00 cold R U | 1:06:00 cold U A Ada | 1:07:00 cold A N", 2, 2, "", "", 360, 360, 0)]
    [InlineData("a latched one is acknowledged in place", "1:00:00 cold N U | 1:01:00 cold U L | 1:02:00 cold L L Ada | 1:03:00 cold L N Ada", 1, 1, "", "", 120, 120, 0)]
    [InlineData("median of three", "1:00:00 a N U | 1:01:00 a U A Ada | 1:02:00 a A N | 2:00:00 b N U | 2:05:00 b U A Ada | 2:06:00 b A N | 3:00:00 c N U | 3:30:00 c U A Ada | 3:31:00 c A N", 3, 1, "", "", 300, 1800, 0)]
    [InlineData("three within 10 min, a fourth just outside", "1:00:00 a N U | 1:05:00 b N U | 1:09:59 c N U | 1:10:00 d N U | 1:11:00 a U N | 1:11:00 b U N | 1:11:00 c U N | 1:11:00 d U N", 4, 3, "", "", null, null, 4)]
    [InlineData("chatter, shelved by the daemon", "1:00:00 a N U | 1:00:10 a U R | 1:00:20 a R U | 1:00:30 a U R | 1:00:40 a R S", 3, 3, "a 1", "", null, null, 0)]
    [InlineData("three in 61 s are no chatter", "1:00:00 a N U | 1:00:10 a U N | 1:00:30 a N U | 1:00:40 a U N | 1:01:01 a N U | 1:02:00 a U N", 3, 3, "", "", null, null, 1)]
    [InlineData("stood for 25 h, then for 23 h", "1:00:00 a N U | 26:00:01 a U N | 30:00:00 a N U | 53:00:00 a U N", 2, 1, "", "a 1", null, null, 1)]
    [InlineData("stands still", "24:00:00 a N U | 24:01:00 a U A Ada", 1, 1, "", "a 1", 60, 60, 0)]
    [InlineData("shelved by a person is no alarm and no wait", "1:00:00 a N U | 1:01:00 a U S Ada | 1:31:00 a S N", 1, 1, "", "", null, null, 0)]
    [InlineData("back from the shelf is a new one", "1:00:00 a N U | 1:01:00 a U S Ada | 1:31:00 a S U | 1:32:00 a U A Ada | 1:33:00 a A N", 2, 1, "", "", 60, 60, 0)]
    public void Each_measure_is_as_worked_out_by_hand(
        string name, string rows, int count, int peak, string chattering, string stale, int? median, int? longest, int unacknowledged)
    {
        var week = AlarmFigures.Of([], Changes(rows), From, To);
        Assert.Equal(
            (name, count, count / 7.0, peak, chattering, stale, Seconds(median), Seconds(longest), unacknowledged),
            (name, week.Count, week.PerDay, week.PeakInTenMinutes, Words(week.Chattering), Words(week.Stale), week.MedianToAcknowledge, week.LongestToAcknowledge, week.Unacknowledged));
    }

    [Fact]
    public void What_stood_before_the_week_is_stale_by_its_own_since()
    {
        var opening = Changes("-30:00:00 a N U | -29:00:00 a U A Ada").Skip(1).ToList();
        Assert.Equal("a 1", Words(AlarmFigures.Of(opening, Changes("1:00:00 a A N"), From, To).Stale));
        Assert.Equal(0, AlarmFigures.Of(opening, [], From, To).Count);
    }

    [Fact]
    public void The_most_frequent_are_ten_at_most_and_the_commonest_is_first()
    {
        var rows = string.Join(" | ", Enumerable.Range(0, 12).SelectMany(alarm => Enumerable.Range(0, alarm + 1).SelectMany(
            time => new[] { $"{alarm}:{time:00}:00 k{alarm} N U", $"{alarm}:{time:00}:30 k{alarm} U N" })));
        var week = AlarmFigures.Of([], Changes(rows), From, To);
        Assert.Equal(["k11 12", "k10 11", "k9 10"], week.MostFrequent.Take(3).Select(Word));
        Assert.Equal(10, week.MostFrequent.Count);
    }

    [Fact]
    public void A_clock_that_was_set_back_makes_no_wait_of_less_than_nothing() =>
        Assert.Equal(TimeSpan.Zero, AlarmFigures.Of([], Changes("1:00:00 a N U | 0:30:00 a U A Ada"), From, To).LongestToAcknowledge);

    [Fact]
    public void Rows_for_people_name_the_vat()
    {
        var week = AlarmFigures.Of([], Changes("1:00:00 overheat N U | 1:04:00 overheat U A Ada"), From, To);
        var rows = AlarmWeekText.Rows(week, _ => "Madder Lane vat");
        Assert.Contains(("Most frequent", "overheat of Madder Lane vat (1)", "a plan for each"), rows);
        Assert.Contains(("Time to acknowledge", "4 min in the middle, 4 min at most", "within the time to act"), rows);
    }

    private static List<AlarmChange> Changes(string rows)
    {
        var entered = new Dictionary<string, Stamp>();
        return [.. rows.Split(" | ", StringSplitOptions.RemoveEmptyEntries).Select(row => Change(row.Split(' '), entered))];
    }

    private static AlarmChange Change(string[] words, Dictionary<string, Stamp> entered)
    {
        var sign = words[0][0] == '-' ? -1 : 1;
        var parts = words[0].TrimStart('-').Split(':').Select(part => int.Parse(part, CultureInfo.InvariantCulture)).ToArray();
        var at = sign * new TimeSpan(parts[0], parts[1], parts[2]);
        var stamp = new Stamp(From + at, at, true);
        var (before, state, by) = (State(words[2]), State(words[3]), words.Length > 4 ? words[4] : null);
        if (before == AlarmState.Normal)
        {
            entered[words[1]] = stamp;
        }

        var status = new AlarmStatus { Vat = new("madder-lane"), Alarm = new(words[1]), State = state, Priority = AlarmPriority.High, Since = entered.GetValueOrDefault(words[1], stamp), Text = "", Action = "" };
        return new(before, status, stamp, by, Announce: by is null && state != AlarmState.Suppressed);
    }

    private static AlarmState State(string letter) => letter switch
    {
        "N" => AlarmState.Normal,
        "U" => AlarmState.Unacknowledged,
        "A" => AlarmState.Acknowledged,
        "R" => AlarmState.ReturnedUnacknowledged,
        "L" => AlarmState.Latched,
        "S" => AlarmState.Shelved,
        _ => throw new ArgumentOutOfRangeException(nameof(letter), letter, "is no state"),
    };

    private static TimeSpan? Seconds(int? seconds) => seconds is { } known ? TimeSpan.FromSeconds(known) : null;

    private static string Words(IEnumerable<AlarmTally> tallies) => string.Join(", ", tallies.Select(Word));

    private static string Word(AlarmTally tally) => $"{tally.Alarm} {tally.Times}";
}
