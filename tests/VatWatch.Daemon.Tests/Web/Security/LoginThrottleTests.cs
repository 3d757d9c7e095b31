using System.Net;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class LoginThrottleTests
{
    private static readonly Passwords Known = new(Quick("woad and weld"), Quick("only looking on"));
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public async Task After_five_wrong_ones_an_address_waits_a_minute_even_with_the_right_one()
    {
        using var throttle = new LoginThrottle(_time);
        for (var i = 0; i < LoginThrottle.TriesPerAddress; i++)
        {
            Assert.Equal(new(true, null), await TryAsync(throttle, "guess", 1));
        }

        Assert.Equal(default, await TryAsync(throttle, "woad and weld", 1));
        Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 2));
        Assert.Equal(1, throttle.Refused);

        _time.Advance(LoginThrottle.Window);
        Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 1));
    }

    [Fact]
    public async Task Right_passwords_do_not_use_up_tries()
    {
        using var throttle = new LoginThrottle(_time);
        for (var i = 0; i < 3 * LoginThrottle.TriesInAll; i++)
        {
            Assert.Equal(new(true, Role.Operator), await TryAsync(throttle, "woad and weld", 1));
        }
    }

    [Fact]
    public async Task Many_addresses_together_are_slowed_too()
    {
        using var throttle = new LoginThrottle(_time);
        for (byte i = 0; i < LoginThrottle.TriesInAll; i++)
        {
            Assert.Equal(new(true, null), await TryAsync(throttle, "guess", i));
        }

        Assert.Equal(default, await TryAsync(throttle, "guess", 200));
    }

    [Fact]
    public async Task A_password_says_whose_it_is()
    {
        using var throttle = new LoginThrottle(_time);
        Assert.Equal(new(true, Role.Viewer), await TryAsync(throttle, "only looking on", 1));
        Assert.Equal(Role.Viewer, Known.RoleOfFingerprint(Known.Fingerprint(Role.Viewer)));
        Assert.Null(Known.RoleOfFingerprint("0011223344556677"));
    }

    private static Task<LoginAnswer> TryAsync(LoginThrottle throttle, string password, byte address) =>
        throttle.CheckAsync(Known, password, new IPAddress([192, 0, 2, address]), TestContext.Current.CancellationToken);

    private static PasswordHash Quick(string password)
    {
        var salt = new byte[16];
        var key = System.Security.Cryptography.Rfc2898DeriveBytes.Pbkdf2(password, salt, 10_000, System.Security.Cryptography.HashAlgorithmName.SHA512, 32);
        Assert.True(PasswordHash.TryParse($"$pbkdf2-sha512$i=10000${Convert.ToBase64String(salt)}${Convert.ToBase64String(key)}", out var hash));
        return hash;
    }
}
