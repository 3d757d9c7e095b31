using Microsoft.Extensions.Time.Testing;

namespace VatWatch.Tests.Time;

public sealed class StandstillWatchTests
{
    [Fact]
    public void A_pause_is_told_once_and_a_late_look_is_none()
    {
        var uptime = new FakeTimeProvider();
        var watch = new StandstillWatch(uptime);

        uptime.Advance(TimeSpan.FromSeconds(9));
        Assert.Null(watch.Look());
        uptime.Advance(TimeSpan.FromMinutes(2));
        Assert.Equal(TimeSpan.FromMinutes(2), watch.Look());
        Assert.Null(watch.Look());
    }

    [Fact]
    public void The_computers_uptime_goes_on()
    {
        var uptime = new UptimeProvider();
        var then = uptime.GetTimestamp();

        Assert.True(uptime.GetElapsedTime(0, then) > TimeSpan.FromSeconds(1), "a computer that runs tests has been up for a while");
        Assert.InRange(uptime.GetElapsedTime(then), TimeSpan.Zero, TimeSpan.FromMinutes(10));
    }
}
