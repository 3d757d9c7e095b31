using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class ConnectionPlacesTests
{
    private const string Owner = "198.51.100.1";
    private readonly KnownAddresses _known = new(new FakeTimeProvider());

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public void One_stranger_takes_its_own_places_only()
    {
        var places = new ConnectionPlaces(_known, new());
        var stranger = Connect(places, 100, _ => "192.0.2.7");
        var other = Connect(places, 1, _ => "192.0.2.8");

        Assert.Equal(ConnectionPlaces.MostOfStranger, Open(stranger));
        Assert.Equal(1, Open(other));
        Assert.Equal(100 - ConnectionPlaces.MostOfStranger, places.Refused);
    }

    [Fact]
    public async Task A_place_is_free_again_once_its_connection_ended()
    {
        var places = new ConnectionPlaces(_known, new());
        var first = Connect(places, ConnectionPlaces.MostOfStranger, _ => "192.0.2.7");
        first[0].Ends.SetResult();
        await first[0].Guarded;

        Connect(places, 1, _ => "192.0.2.7");
        Assert.Equal(0, places.Refused);
    }

    [Fact]
    public void Many_strangers_leave_places_for_known_addresses()
    {
        _known.Remember(IPAddress.Parse(Owner));
        var places = new ConnectionPlaces(_known, new());
        var strangers = Connect(places, 500, i => $"192.0.2.{i % 250}");
        Assert.Equal(ConnectionPlaces.MostOfStrangers, Open(strangers));

        var owner = Connect(places, 500, _ => Owner);
        Assert.Equal(ConnectionPlaces.Most - ConnectionPlaces.MostOfStrangers, Open(owner));
        Assert.Equal(ConnectionPlaces.MostOfStrangers, Open(strangers));
    }

    [Fact]
    public void Who_has_been_quiet_for_longest_makes_room_for_the_next()
    {
        var places = new ConnectionPlaces(_known, new());
        var crowd = Connect(places, ConnectionPlaces.MostOfKnown, _ => "127.0.0.1");
        crowd[0].Ask();

        var next = Connect(places, 2, _ => "127.0.0.1");

        Assert.Equal(2, Open(next));
        Assert.Equal([false, true, true, false], crowd.Take(4).Select(one => one.IsEnded));
    }

    [Fact]
    public void The_address_with_the_most_connections_makes_room_first()
    {
        var places = new ConnectionPlaces(_known, new());
        var single = Connect(places, 1, _ => "203.0.113.9");
        Connect(places, 500, i => $"192.0.2.{i % 40}");

        Assert.Equal(1, Open(single));
    }

    [Fact]
    public void Where_all_are_being_answered_the_next_is_refused()
    {
        var places = new ConnectionPlaces(_known, new());
        foreach (var one in Connect(places, ConnectionPlaces.MostOfStranger, _ => "192.0.2.7"))
        {
            one.Ask();
        }

        Assert.True(Connect(places, 1, _ => "192.0.2.7")[0].IsEnded);
    }

    [Fact]
    public void Behind_the_named_proxy_everybody_is_at_one_address()
    {
        var places = new ConnectionPlaces(_known, new() { Proxy = IPAddress.Parse("192.0.2.7") });
        Assert.Equal(ConnectionPlaces.MostOfKnown, Open(Connect(places, 500, _ => "192.0.2.7")));
    }

    [Theory]
    [InlineData("")] // says nothing
    [InlineData("POST /api/vats/madder-lane/note HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{")] // stops in its body
    public async Task Held_connections_of_the_same_address_keep_nobody_out(string said)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var events = await browser.GetAsync("/api/events", HttpCompletionOption.ResponseHeadersRead, Cancel);
        var held = new List<TcpClient>();
        for (var i = 0; i < ConnectionPlaces.MostOfKnown + 10; i++)
        {
            held.Add(new TcpClient());
            await held[^1].ConnectAsync(pages.Address.Host, pages.Address.Port, Cancel);
            await held[^1].GetStream().WriteAsync(System.Text.Encoding.ASCII.GetBytes(said), Cancel);
        }

        using var owner = pages.Browser();
        using var page = await owner.GetAsync("/", Cancel);

        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        var stream = await events.Content.ReadAsStreamAsync(Cancel);
        Assert.True(await stream.ReadAsync(new byte[10], Cancel) > 0);
        held.ForEach(one => one.Dispose());
    }

    private static List<HeldConnection> Connect(ConnectionPlaces places, int count, Func<int, string> address) =>
        [.. Enumerable.Range(0, count).Select(i => new HeldConnection(places, IPAddress.Parse(address(i))))];

    private static int Open(List<HeldConnection> connections) => connections.Count(one => !one.IsEnded);

    /// <summary>Stays until it is ended.</summary>
    private sealed class HeldConnection : DefaultConnectionContext
    {
        public HeldConnection(ConnectionPlaces places, IPAddress address)
        {
            RemoteEndPoint = new IPEndPoint(address, 50_000);
            Guarded = places.Guard(_ => Ends.Task)(this);
        }

        public TaskCompletionSource Ends { get; } = new();

        public Task Guarded { get; }

        public bool IsEnded { get; private set; }

        /// <summary>Sends a request that is never answered.</summary>
        public void Ask()
        {
            var request = new DefaultHttpContext();
            request.Features.Set(Features.Get<ConnectionPlace>());
            ConnectionPlace.Keep(request);
        }

        public override void Abort(ConnectionAbortedException abortReason) => IsEnded = true;
    }
}
