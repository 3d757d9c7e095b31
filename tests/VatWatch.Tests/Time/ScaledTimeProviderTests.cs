using Microsoft.Extensions.Time.Testing;

namespace VatWatch.Tests.Time;

public sealed class ScaledTimeProviderTests
{
    private static readonly DateTimeOffset Origin = new(2026, 1, 2, 20, 0, 0, TimeSpan.Zero);
    private readonly FakeTimeProvider _wall = new();

    [Fact]
    public void Time_passes_faster_by_the_factor()
    {
        var scaled = new ScaledTimeProvider(_wall, 120, Origin);
        scaled.Renew(TimeSpan.FromHours(2));
        var start = scaled.GetTimestamp();
        _wall.Advance(TimeSpan.FromSeconds(30));
        Assert.Equal(Origin.AddHours(1), scaled.GetUtcNow());
        Assert.Equal(TimeSpan.FromHours(1), scaled.GetElapsedTime(start));
    }

    [Fact]
    public void A_timer_fires_after_the_scaled_wait()
    {
        var scaled = new ScaledTimeProvider(_wall, 120, Origin);
        var fired = 0;
        using var timer = scaled.CreateTimer(_ => fired++, null, TimeSpan.FromMinutes(2), Timeout.InfiniteTimeSpan);
        _wall.Advance(TimeSpan.FromMilliseconds(999));
        Assert.Equal(0, fired);
        _wall.Advance(TimeSpan.FromMilliseconds(1));
        Assert.Equal(1, fired);
    }

    [Fact]
    public void A_machine_that_stalls_does_not_make_a_silence_long_enough_for_an_alarm()
    {
        var scaled = new ScaledTimeProvider(_wall, 100, Origin);
        scaled.Renew(TimeSpan.FromSeconds(10));
        _wall.Advance(TimeSpan.FromSeconds(1.1));

        // 10 s at full speed in the first 0.1 s, then 1 s of creeping.
        Assert.Equal(14, (scaled.GetUtcNow() - Origin).TotalSeconds, 3);
    }

    [Fact]
    public void It_never_stands_still_for_ever()
    {
        var scaled = new ScaledTimeProvider(_wall, 100, Origin);
        _wall.Advance(TimeSpan.FromMinutes(1));
        Assert.True(scaled.GetUtcNow() - Origin > TimeSpan.FromMinutes(1));
    }
}
