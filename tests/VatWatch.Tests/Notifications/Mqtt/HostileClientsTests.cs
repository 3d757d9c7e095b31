using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Notifications.Mqtt;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>Strangers at the built-in broker who have not said who they are.</summary>
[Trait("Starts", "processes")]
public sealed class HostileClientsTests : IDisposable
{
    private const int Announced = 20;
    private const int Strangers = 300;

    /// <summary>What a broker with some strangers may take; a single announced packet would be 256 MB.</summary>
    private const long MostBytes = 64L * 1024 * 1024;

    private readonly string _password = Path.GetTempFileName();
    private readonly int _port = FreePort.Next();

    public void Dispose() => File.Delete(_password);

    [Fact]
    public async Task Packets_announced_at_their_largest_take_no_memory_and_end_their_connections()
    {
        await using var broker = await StartAsync(new(IPAddress.Loopback, _port));
        var before = GC.GetTotalAllocatedBytes();
        for (var i = 0; i < Announced; i++)
        {
            using var stranger = await ConnectAsync();
            await stranger.GetStream().WriteAsync((byte[])[0x10, 0xFF, 0xFF, 0xFF, 0x7F], TestContext.Current.CancellationToken);
            Assert.True(await IsClosedAsync(stranger));
        }

        Assert.InRange(GC.GetTotalAllocatedBytes() - before, 0, MostBytes);
        Assert.Equal(0, (await MosquittoPub.SendAsync(new(_port), "t", "x")).ExitCode);
    }

    [Fact]
    public async Task Strangers_beyond_the_bound_are_closed_at_once_and_leave_room_when_they_go()
    {
        await using var broker = await StartAsync(new(IPAddress.Loopback, _port));
        var strangers = new List<TcpClient>();
        for (var i = 0; i < Strangers; i++)
        {
            strangers.Add(await ConnectAsync());
        }

        Assert.True(await IsClosedAsync(strangers[^1]));
        Assert.False(strangers[0].Client.Poll(0, SelectMode.SelectRead));
        strangers.ForEach(stranger => stranger.Dispose());
        var answer = 1;
        for (var tries = 0; answer != 0 && tries < 100; tries++)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(100), TestContext.Current.CancellationToken);
            answer = await SayAsync("127.0.0.1");
        }

        Assert.Equal(0, answer);
    }

    [Fact]
    public async Task On_every_address_of_the_machine_nobody_comes_in_without_the_password()
    {
        await File.WriteAllTextAsync(_password, "right-horse\n", TestContext.Current.CancellationToken);
        await using var broker = await StartAsync(new(IPAddress.Any, _port), "watch");
        foreach (var host in (string[])["127.0.0.1", "127.0.0.2", .. OwnAddresses()])
        {
            Assert.NotEqual(0, await SayAsync(host));
            Assert.NotEqual(0, await SayAsync(host, "-u", "watch"));
            Assert.NotEqual(0, await SayAsync(host, "-u", "watch", "-P", "wrong-horse"));
            Assert.NotEqual(0, await SayAsync(host, "-u", "watch", "-P", ""));
            Assert.Equal(0, await SayAsync(host, "-u", "watch", "-P", "right-horse"));
        }
    }

    private static IEnumerable<string> OwnAddresses() => NetworkInterface.GetAllNetworkInterfaces().Where(one => one.OperationalStatus == OperationalStatus.Up)
        .SelectMany(one => one.GetIPProperties().UnicastAddresses).Select(one => one.Address)
        .Where(address => address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address)).Select(address => address.ToString());

    private async Task<int> SayAsync(string host, params string[] who) =>
        (await ToolRun.RunAsync("mosquitto_pub", ["-h", host, "-p", $"{_port}", "-q", "1", "-t", "vatwatch/hill-studio/madder-lane/command/note", "-m", "x", .. who])).ExitCode;

    private async Task<BuiltinBroker> StartAsync(IPEndPoint listen, string? user = null)
    {
        var options = MqttOptions.Default with { Listen = listen, User = user, PasswordFile = user is null ? null : _password };
        var broker = new BuiltinBroker(options, NullLogger<BuiltinBroker>.Instance);
        await broker.StartAsync(TestContext.Current.CancellationToken);
        return broker;
    }

    private async Task<TcpClient> ConnectAsync()
    {
        var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, _port, TestContext.Current.CancellationToken);
        return client;
    }

    private static async Task<bool> IsClosedAsync(TcpClient client)
    {
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        try
        {
            return await client.GetStream().ReadAsync(new byte[1], limit.Token) == 0;
        }
        catch (IOException)
        {
            return true;
        }
    }
}
