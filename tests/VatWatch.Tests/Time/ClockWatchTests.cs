namespace VatWatch.Tests.Time;

public sealed class ClockWatchTests
{
    private static readonly DateTimeOffset Earliest = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset Dusk = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_start_in_1970_is_not_trusted_until_the_clock_is_set_and_that_is_one_step()
    {
        var time = new TwoClocks(DateTimeOffset.UnixEpoch);
        var clock = new WatchClock(time);
        var watch = new ClockWatch(clock, Earliest);
        Assert.True(watch.Evaluate() is { Step: null, TrustChanged: true });
        Assert.False(clock.Now().UtcTrusted);
        Assert.True(Pass(time, watch) is { Step: null, TrustChanged: false });

        time.Wall = Dusk;
        var set = Pass(time, watch);

        Assert.True(set.TrustChanged && clock.Now().UtcTrusted);
        Assert.Equal(Dusk.AddSeconds(1) - DateTimeOffset.UnixEpoch.AddSeconds(2), set.Step);
        Assert.True(Pass(time, watch) is { Step: null, TrustChanged: false });
    }

    [Theory]
    [InlineData(3600)]
    [InlineData(-3600)]
    [InlineData(1.5)]
    public void A_clock_that_is_set_is_one_event_and_durations_do_not_change(double seconds)
    {
        var time = new TwoClocks(Dusk);
        var clock = new WatchClock(time);
        var watch = new ClockWatch(clock, Earliest);
        Pass(time, watch);
        var before = clock.Now();
        time.Wall += TimeSpan.FromSeconds(seconds);

        var looks = Enumerable.Range(0, 10).Select(_ => Pass(time, watch)).ToList();

        var step = Assert.Single(looks, look => look.Step is not null);
        Assert.Equal(seconds, step.Step!.Value.TotalSeconds, 1e-6);
        Assert.Equal(step.Before + step.Step.Value, step.Now);
        Assert.Equal(TimeSpan.FromSeconds(10), clock.Now().Since(before));
        Assert.DoesNotContain(looks, look => look.TrustChanged);
    }

    [Fact]
    public void A_clock_that_is_slewed_for_hours_is_no_event()
    {
        var time = new TwoClocks(Dusk);
        var watch = new ClockWatch(new WatchClock(time), Earliest);
        for (var second = 0; second < 7200; second++)
        {
            time.Wall += TimeSpan.FromMicroseconds(500); // 500 ppm, the most that adjtime(3) steers by
            Assert.Null(Pass(time, watch).Step);
        }
    }

    [Fact]
    public void A_clock_that_falls_back_before_the_earliest_is_not_trusted_at_once()
    {
        var time = new TwoClocks(Dusk);
        var clock = new WatchClock(time);
        var watch = new ClockWatch(clock, Earliest);
        Pass(time, watch);
        time.Wall = DateTimeOffset.UnixEpoch;
        Assert.False(clock.Now().UtcTrusted); // even before the next look
        Assert.True(Pass(time, watch) is { TrustChanged: true, Step: not null });
    }

    private static ClockSnapshot Pass(TwoClocks time, ClockWatch watch)
    {
        time.Pass(TimeSpan.FromSeconds(1));
        return watch.Evaluate();
    }

    /// <summary>A wall clock that can be set and a monotonic one that cannot.</summary>
    private sealed class TwoClocks(DateTimeOffset wall) : TimeProvider
    {
        private long _monotonic;

        public DateTimeOffset Wall { get; set; } = wall;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public void Pass(TimeSpan time)
        {
            Wall += time;
            _monotonic += time.Ticks;
        }

        public override DateTimeOffset GetUtcNow() => Wall;

        public override long GetTimestamp() => _monotonic;
    }
}
