using System.Net;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class KnownAddressesTests
{
    private readonly FakeTimeProvider _time = new();

    [Theory]
    [InlineData("192.0.2.7", "::ffff:192.0.2.7")]
    [InlineData("2001:db8:1:2::1", "2001:db8:1:2:ffff::9")]
    [InlineData("::1", "::1")]
    public void One_place_has_many_addresses(string one, string other) =>
        Assert.Equal(KnownAddresses.PlaceOf(IPAddress.Parse(one)), KnownAddresses.PlaceOf(IPAddress.Parse(other)));

    [Theory]
    [InlineData("192.0.2.7", "192.0.2.8")]
    [InlineData("2001:db8:1:2::1", "2001:db8:1:3::1")]
    public void Two_places_are_told_apart(string one, string other) =>
        Assert.NotEqual(KnownAddresses.PlaceOf(IPAddress.Parse(one)), KnownAddresses.PlaceOf(IPAddress.Parse(other)));

    [Fact]
    public void A_place_is_known_for_as_long_as_a_session_lives()
    {
        var known = new KnownAddresses(_time);
        known.Remember(IPAddress.Parse("192.0.2.7"));
        _time.Advance(KnownAddresses.Memory - TimeSpan.FromSeconds(1));
        Assert.True(known.Knows(IPAddress.Parse("192.0.2.7")));
        Assert.False(known.Knows(IPAddress.Parse("192.0.2.8")));
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.False(known.Knows(IPAddress.Parse("192.0.2.7")));
    }

    [Fact]
    public void The_one_not_seen_for_longest_makes_room()
    {
        var known = new KnownAddresses(_time);
        for (byte i = 0; i <= KnownAddresses.Most; i++)
        {
            known.Remember(new IPAddress([192, 0, 2, i]));
            _time.Advance(TimeSpan.FromSeconds(1));
        }

        Assert.False(known.Knows(IPAddress.Parse("192.0.2.0")));
        Assert.True(known.Knows(IPAddress.Parse("192.0.2.1")));
    }
}
