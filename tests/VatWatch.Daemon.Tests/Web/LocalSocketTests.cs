using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Runtime.Versioning;
using VatWatch.Daemon.Web;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web;

/// <summary>The pages on the socket in the store's folder.</summary>
[SupportedOSPlatform("linux")]
public sealed class LocalSocketTests : IDisposable
{
    private static readonly WebOptions Guarded = new() { Listen = new(IPAddress.Loopback, 0), Passwords = new(PasswordHash.Of("woad and weld", 1)) };

    private readonly string _folder = Directory.CreateTempSubdirectory("socket-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Where_a_stranger_needs_a_password_the_socket_needs_none()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat(), Guarded, local: Bound());
        using var stranger = pages.Browser();
        using var local = Client();

        using var refused = await stranger.PostAsync("/api/vats/madder-lane/alarms/overheat/acknowledge", By("Ada"), TestContext.Current.CancellationToken);
        using var done = await local.PostAsync("/api/vats/madder-lane/alarms/overheat/acknowledge", By("Ada"), TestContext.Current.CancellationToken);

        Assert.Equal((HttpStatusCode.Unauthorized, HttpStatusCode.OK), (refused.StatusCode, done.StatusCode));
        Assert.Equal("verb", Assert.Single(pages.Desk.Taken).Via);
        Assert.Contains("madder-lane", await local.GetStringAsync("/api/vats", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_site_s_page_is_refused_there_too()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat(), Guarded, local: Bound());
        using var local = Client();
        local.DefaultRequestHeaders.Add("Origin", "http://elsewhere.example");
        using var refused = await local.PostAsync("/api/vats/madder-lane/alarms/overheat/acknowledge", By("Ada"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Empty(pages.Desk.Taken);
    }

    [Fact]
    public async Task Owner_and_group_may_write_to_it_and_it_goes_with_the_daemon()
    {
        await using (var pages = await RunningPages.StartAsync(new Scenes().Ready(), local: Bound()))
        {
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.GroupWrite, File.GetUnixFileMode(LocalSocket.PathIn(_folder)));
        }

        Assert.False(File.Exists(LocalSocket.PathIn(_folder)));
    }

    [Fact]
    public async Task The_socket_of_a_killed_daemon_is_replaced()
    {
        using (var killed = Bound())
        {
            // The runtime removes the file of a socket it closes; a kill does not.
            File.Move(LocalSocket.PathIn(_folder), Path.Combine(_folder, "kept"));
        }

        File.Move(Path.Combine(_folder, "kept"), LocalSocket.PathIn(_folder));
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), local: Bound());
        using var local = Client();
        Assert.Contains("madder-lane", await local.GetStringAsync("/api/vats", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public void Somebody_who_listens_is_noticed_however_busy_and_a_socket_left_behind_is_nobody()
    {
        Assert.False(LocalSocket.IsListenedOn(_folder));
        using var daemon = Bound();
        Assert.False(LocalSocket.IsListenedOn(_folder));
        daemon.Listen(1);
        for (var caller = 0; caller < 5; caller++)
        {
            Assert.True(LocalSocket.IsListenedOn(_folder));
        }
    }

    [Fact]
    public void A_path_that_no_socket_address_holds_is_said_so()
    {
        var deep = Directory.CreateDirectory(Path.Combine(_folder, new string('d', 100))).FullName;
        Assert.Null(LocalSocket.TryBind(deep, out var fault));
        Assert.Contains($"'{LocalSocket.PathIn(deep)}' has {Encoding.UTF8.GetByteCount(LocalSocket.PathIn(deep))} bytes and a socket's address holds 107; wanted a data folder with a shorter path", fault, StringComparison.Ordinal);
        Assert.Null(LocalSocket.FaultOf(new string('p', 107)));
        Assert.NotNull(LocalSocket.FaultOf(new string('p', 106) + "é"));
    }

    [Fact]
    public void A_folder_that_takes_no_socket_is_said_so()
    {
        Assert.Null(LocalSocket.TryBind(Path.Combine(_folder, "nowhere"), out var fault));
        Assert.StartsWith($"'{LocalSocket.PathIn(Path.Combine(_folder, "nowhere"))}' cannot be made: ", fault, StringComparison.Ordinal);
    }

    private Socket Bound() => LocalSocket.TryBind(_folder, out var fault) ?? throw new InvalidOperationException(fault);

    private HttpClient Client() => new(new SocketsHttpHandler
    {
        ConnectCallback = async (_, cancel) =>
        {
            var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
            await socket.ConnectAsync(new UnixDomainSocketEndPoint(LocalSocket.PathIn(_folder)), cancel);
            return new NetworkStream(socket, ownsSocket: true);
        },
    })
    {
        BaseAddress = new("http://localhost"),
    };

    private static StringContent By(string name) => new($$"""{"by":"{{name}}"}""", Encoding.UTF8, "application/json");
}
