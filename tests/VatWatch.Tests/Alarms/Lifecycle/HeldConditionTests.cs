using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms.Rules;

namespace VatWatch.Tests.Alarms.Lifecycle;

/// <summary>On-delay and off-delay as ANSI/ISA-18.2 uses the words; each row is (second, signal, whether the condition stands).</summary>
public sealed class HeldConditionTests
{
    private const AlarmSignal Met = AlarmSignal.Met;
    private const AlarmSignal Clear = AlarmSignal.Clear;
    private const AlarmSignal Unknown = AlarmSignal.Unknown;

    [Fact]
    public void It_stands_once_it_was_met_for_the_on_delay() =>
        Follow((0, Met, false), (5, Met, false), (9.9, Met, false), (10, Met, true));

    [Fact]
    public void One_stray_value_raises_nothing() =>
        Follow((0, Clear, false), (1, Met, false), (2, Clear, false), (30, Clear, false), (31, Met, false), (32, Clear, false), (60, Clear, false));

    [Fact]
    public void By_a_value_that_has_come_back_it_goes_on_to_stand_and_does_not_begin_to()
    {
        var condition = new HeldCondition(TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(30));
        condition.Observe(Met, TimeSpan.Zero);
        condition.Observe(Met, TimeSpan.FromSeconds(20), mayBegin: false);
        Assert.False(condition.Stands);
        condition.Observe(Met, TimeSpan.FromSeconds(21));
        condition.Observe(Met, TimeSpan.FromSeconds(22), mayBegin: false);
        Assert.True(condition.Stands);
    }

    [Fact]
    public void It_falls_once_it_was_clear_for_the_off_delay() =>
        Follow((0, Met, false), (10, Met, true), (20, Clear, true), (49.9, Clear, true), (50, Clear, false));

    [Fact]
    public void Another_meeting_starts_the_off_delay_anew() =>
        Follow((0, Met, false), (10, Met, true), (20, Clear, true), (45, Met, true), (46, Clear, true), (70, Clear, true), (76, Clear, false));

    [Fact]
    public void Time_without_evidence_counts_for_neither_delay() =>
        Follow((0, Met, false), (6, Unknown, false), (100, Met, false), (103.9, Met, false), (104, Met, true), (110, Clear, true), (120, Unknown, true), (500, Clear, true), (519, Clear, true), (520, Clear, false));

    [Fact]
    public void Lost_evidence_never_ends_it() =>
        Follow((0, Met, false), (10, Met, true), (11, Unknown, true), (100_000, Unknown, true));

    [Fact]
    public void It_does_not_rise_on_a_moment_without_evidence() =>
        Follow((0, Met, false), (10, Unknown, false), (20, Unknown, false), (21, Met, true));

    [Fact]
    public void Half_the_time_past_the_limit_gets_through()
    {
        var condition = Begun();
        var rose = Enumerable.Range(0, 120).FirstOrDefault(second => Stands(condition, second, second % 2 == 0 ? Met : Clear), -1);
        Assert.InRange(rose, 20, 60);
    }

    [Fact]
    public void A_quarter_of_the_time_past_the_limit_does_not()
    {
        var condition = Begun();
        Assert.DoesNotContain(true, Enumerable.Range(0, 3600).Select(second => Stands(condition, second, second % 4 == 0 ? Met : Clear)));
    }

    [Fact]
    public void A_moment_before_the_last_one_counts_as_the_last_one() =>
        Follow((0, Met, false), (9, Met, false), (5, Met, false), (9.5, Met, false), (10, Met, true));

    private static void Follow(params (double Second, AlarmSignal Signal, bool Stands)[] rows)
    {
        var condition = Begun();
        Assert.All(rows, row => Assert.Equal(row.Stands, Stands(condition, row.Second, row.Signal)));
    }

    private static HeldCondition Begun() => new(TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(30));

    private static bool Stands(HeldCondition condition, double second, AlarmSignal signal)
    {
        condition.Observe(signal, TimeSpan.FromSeconds(second));
        return condition.Stands;
    }
}
