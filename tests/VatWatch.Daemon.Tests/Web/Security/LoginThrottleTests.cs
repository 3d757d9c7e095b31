using System.Net;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class LoginThrottleTests
{
    private static readonly Passwords Known = new(PasswordHash.Of("woad and weld", 1), PasswordHash.Of("only looking on", 1));
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public async Task After_five_wrong_ones_the_right_one_is_looked_at_later_but_looked_at()
    {
        using var throttle = New();
        await WrongAsync(throttle, LoginThrottle.FreeTries, 1);

        var late = TryAsync(throttle, "woad and weld", 1);
        Assert.False(late.IsCompleted);
        Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 2));
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal(new(true, Role.Operator), await late);
        Assert.Equal((1, 0), (throttle.Delayed, throttle.Refused));

        Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 1));
    }

    [Fact]
    public async Task Guessing_gets_slower_up_to_a_bound_and_only_one_at_a_time()
    {
        using var throttle = New();
        await WrongAsync(throttle, LoginThrottle.FreeTries, 1);
        var began = _time.GetUtcNow();
        for (var i = 0; i < 10; i++)
        {
            var late = TryAsync(throttle, "guess", 1);
            Assert.Equal(default, await TryAsync(throttle, "woad and weld", 1));
            while (!late.IsCompleted)
            {
                _time.Advance(TimeSpan.FromSeconds(1));
                await Task.WhenAny(late, Task.Delay(5, TestContext.Current.CancellationToken));
            }
        }

        Assert.InRange(_time.GetUtcNow() - began, TimeSpan.FromSeconds(1 + 2 + 4 + 8 + (6 * 16)), TimeSpan.FromSeconds(180));
        _time.Advance(LoginThrottle.Forgiven);
        Assert.Equal(new(true, null), await TryAsync(throttle, "guess", 1));
    }

    [Fact]
    public async Task Strangers_all_over_the_world_do_not_keep_out_who_signed_in_before()
    {
        const int strangers = LoginThrottle.MostWaiting + 10;
        using var throttle = New();
        Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 250));
        for (byte i = 0; i < strangers; i++)
        {
            await WrongAsync(throttle, LoginThrottle.FreeTries, i);
        }

        var waiting = Enumerable.Range(0, strangers).Select(i => TryAsync(throttle, "guess", (byte)i)).ToList();
        Assert.Equal(strangers - LoginThrottle.MostWaiting, throttle.Refused);
        Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 250));
        await WrongAsync(throttle, LoginThrottle.FreeTriesOfKnown, 250);
        Assert.False(TryAsync(throttle, "guess", 250).IsCompleted);

        _time.Advance(LoginThrottle.LongestDelay);
        await Task.WhenAll(waiting);
    }

    [Fact]
    public async Task Right_passwords_do_not_use_up_tries()
    {
        using var throttle = New();
        for (var i = 0; i < 3 * LoginThrottle.FreeTriesOfKnown; i++)
        {
            Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 1));
        }
    }

    [Fact]
    public async Task A_password_says_whose_it_is()
    {
        using var throttle = New();
        Assert.Equal(new(true, Role.Viewer), await TryAsync(throttle, "only looking on", 1));
        Assert.Equal(Role.Viewer, Known.RoleOfFingerprint(Known.Fingerprint(Role.Viewer)));
        Assert.Null(Known.RoleOfFingerprint("0011223344556677"));
    }

    private LoginThrottle New() => new(_time, new KnownAddresses(_time), NullLogger<LoginThrottle>.Instance);

    private static async Task WrongAsync(LoginThrottle throttle, int times, byte address)
    {
        for (var i = 0; i < times; i++)
        {
            Assert.Equal(new(true, null), await TryAsync(throttle, "guess", address));
        }
    }

    private static Task<LoginAnswer> TryAsync(LoginThrottle throttle, string password, byte address) =>
        throttle.CheckAsync(Known, password, new IPAddress([192, 0, 2, address]), TestContext.Current.CancellationToken);
}
