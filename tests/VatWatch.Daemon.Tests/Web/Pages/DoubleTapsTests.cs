using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Tests.Web.Pages;

public sealed class DoubleTapsTests
{
    private readonly FakeTimeProvider _time = new();
    private int _acts;

    [Fact]
    public async Task The_same_tap_twice_within_seconds_is_one_tap()
    {
        var taps = new DoubleTaps(_time);
        Assert.Equal((1, 1), (await TapAsync(taps, "Ada"), await TapAsync(taps, "Ada")));
        Assert.Equal(2, await TapAsync(taps, "Grace"));

        _time.Advance(DoubleTaps.Window);
        Assert.Equal(3, await TapAsync(taps, "Ada"));
    }

    [Fact]
    public async Task The_same_tap_after_another_one_is_a_tap_of_its_own()
    {
        var taps = new DoubleTaps(_time);
        Assert.Equal((1, 2, 3), (await TapAsync(taps, "Ada"), await TapAsync(taps, "Ada", "dip-out"), await TapAsync(taps, "Ada")));
    }

    [Fact]
    public async Task What_failed_may_be_tried_again_at_once()
    {
        var taps = new DoubleTaps(_time);
        await Assert.ThrowsAsync<InvalidOperationException>(() => taps.OnceAsync<int>("Ada", "weld-yard", "dip-in", () => Task.FromException<int>(new InvalidOperationException())));
        Assert.Equal(1, await TapAsync(taps, "Ada"));
    }

    private Task<int> TapAsync(DoubleTaps taps, string by, string what = "dip-in") => taps.OnceAsync(by, "weld-yard", what, () => Task.FromResult(++_acts));
}
