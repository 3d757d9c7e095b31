using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Readings;

namespace VatWatch.Tests.Readings;

public sealed class ProbeScheduleTests
{
    [Theory]
    [InlineData(0, 5, 0)]
    [InlineData(4.999, 5, 0)]
    [InlineData(5, 10, 1)]
    [InlineData(12, 15, 2)]
    [InlineData(3600, 3605, 720)]
    public void The_next_beat_is_the_first_after_now(double now, double due, int skipped)
    {
        var schedule = new ProbeSchedule(new HandMadeProbe("liquor", 5, (_, _) => Task.FromResult(Sample.Good(0)), new FakeTimeProvider()), TimeSpan.Zero);
        Assert.Equal(skipped, schedule.Advance(TimeSpan.FromSeconds(now)));
        Assert.Equal(due, schedule.Due.TotalSeconds);
    }

    [Fact]
    public void A_beat_of_100_ms_does_not_drift_in_a_night()
    {
        var schedule = new ProbeSchedule(new HandMadeProbe("liquor", 0.1, (_, _) => Task.FromResult(Sample.Good(0)), new FakeTimeProvider()), TimeSpan.Zero);
        for (var beat = 0; beat < 360_000; beat++)
        {
            Assert.Equal(0, schedule.Advance(schedule.Due + TimeSpan.FromMilliseconds(beat % 90)));
        }

        Assert.Equal(36_000, schedule.Due.TotalSeconds);
    }
}
