using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class ConnectionPlacesTests
{
    private readonly KnownAddresses _known = new(new FakeTimeProvider());
    private readonly TaskCompletionSource _open = new();

    [Fact]
    public async Task One_stranger_takes_its_own_places_only()
    {
        var places = new ConnectionPlaces(_known, new());
        Assert.Equal(ConnectionPlaces.MostOfStranger, Taken(places, 100, _ => "192.0.2.7"));
        Assert.Equal(1, Taken(places, 1, _ => "192.0.2.8"));
        Assert.Equal(100 - ConnectionPlaces.MostOfStranger, places.Refused);

        _open.SetResult();
        await Task.Yield();
        Assert.Equal(1, Taken(places, 1, _ => "192.0.2.7"));
    }

    [Fact]
    public void Many_strangers_leave_places_for_known_addresses()
    {
        _known.Remember(IPAddress.Parse("198.51.100.1"));
        var places = new ConnectionPlaces(_known, new());
        Assert.Equal(ConnectionPlaces.MostOfStrangers, Taken(places, 500, i => $"192.0.2.{i % 250}"));
        Assert.Equal(ConnectionPlaces.Most - ConnectionPlaces.MostOfStrangers, Taken(places, 500, _ => "198.51.100.1"));
        Assert.Equal(0, Taken(places, 1, _ => "127.0.0.1"));
    }

    [Fact]
    public void Behind_the_named_proxy_everybody_is_at_one_address()
    {
        var places = new ConnectionPlaces(_known, new() { Proxy = IPAddress.Parse("192.0.2.7") });
        Assert.Equal(ConnectionPlaces.MostOfKnown, Taken(places, 500, _ => "192.0.2.7"));
    }

    private int Taken(ConnectionPlaces places, int count, Func<int, string> address)
    {
        var taken = 0;
        var guard = places.Guard(_ =>
        {
            taken++;
            return _open.Task;
        });
        for (var i = 0; i < count; i++)
        {
            _ = guard(new DefaultConnectionContext { RemoteEndPoint = new IPEndPoint(IPAddress.Parse(address(i)), 50_000) });
        }

        return taken;
    }
}
