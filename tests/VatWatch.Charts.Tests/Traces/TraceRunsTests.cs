using VatWatch.Charts.Traces;
using VatWatch.Measurements;

namespace VatWatch.Charts.Tests.Traces;

public class TraceRunsTests
{
    private static IReadOnlyList<TraceRun> Runs(ProbeTrace trace) => TraceRuns.Of(trace, NightOfWarming.Start);

    [Fact]
    public void Three_periods_without_a_reading_are_bridged_and_more_are_not()
    {
        Assert.Single(Runs(Logs.Trace([(0, 40), (1, 41), (2, 42), (3, 43), (6, 44), (7, 45)])));
        var runs = Runs(Logs.Trace([(0, 40), (1, 41), (2, 42), (3, 43), (6.1, 44), (7, 45)]));
        Assert.Equal([4, 2], runs.Select(run => run.Points.Count));
    }

    [Fact]
    public void A_reading_without_a_value_breaks_the_line() =>
        Assert.Equal([2, 1, 2], Runs(Logs.Minutes(40, 41, null, 42, null, 43, 44)).Select(run => run.Points.Count));

    [Fact]
    public void A_suspect_stretch_reaches_from_the_good_value_before_it_to_the_one_after()
    {
        var readings = Enumerable.Range(0, 6).Select(minute => Logs.Reading(minute, 40 + minute)).ToArray();
        foreach (var doubtful in (int[])[2, 3])
            readings[doubtful] = readings[doubtful] with { Quality = Quality.Suspect, Reason = "flat" };
        var runs = Runs(ProbeTrace.Of(Logs.Record(TimeSpan.FromMinutes(5), readings)).Single());

        Assert.Equal([false, true, false], runs.Select(run => run.Suspect));
        Assert.Equal([40, 41], runs[0].Points.Select(point => point.Value));
        Assert.Equal([41, 42, 43, 44], runs[1].Points.Select(point => point.Value));
        Assert.Equal([44, 45], runs[2].Points.Select(point => point.Value));
    }

    [Fact]
    public void A_wall_clock_set_back_never_draws_a_line_backwards()
    {
        Measurement At(int utcMinute, int monotonicMinute) => Logs.Reading(utcMinute, 40) is var reading
            ? reading with { Stamp = reading.Stamp with { Monotonic = TimeSpan.FromMinutes(monotonicMinute), UtcTrusted = false } }
            : null!;
        var runs = Runs(ProbeTrace.Of(Logs.Record(TimeSpan.FromHours(1), [At(10, 10), At(11, 11), At(5, 12), At(6, 13)])).Single());
        Assert.Equal([2, 2], runs.Select(run => run.Points.Count));
    }

    [Fact]
    public void A_value_that_is_not_a_number_is_no_value() =>
        Assert.Equal([1, 1], Runs(Logs.Minutes(40, double.NaN, 42)).Select(run => run.Points.Count));

    [Fact]
    public void A_record_of_minute_averages_is_judged_by_its_own_spacing_not_by_the_configured_five_seconds() =>
        Assert.Equal(TimeSpan.FromMinutes(1), Logs.Minutes(40, 41, 42, 43).UsualPeriod);

    [Fact]
    public void With_few_readings_the_configured_period_holds() => Assert.Equal(TimeSpan.FromSeconds(5), Logs.Minutes(40, 41).UsualPeriod);
}
