using System.Net;
using System.Net.Sockets;
using System.Text;
using VatWatch.Daemon.Web;

namespace VatWatch.Daemon.Tests.Web.Security;

/// <summary>Connections that say nothing, or send a body drop by drop, end by themselves; the limits are made short here.</summary>
public sealed class SlowConnectionTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("")] // says nothing at all
    [InlineData("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n")] // never ends its head
    [InlineData("GET /health/live HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")] // is answered and stays
    [InlineData("POST /api/vats/madder-lane/note HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{")] // stops in its body
    public async Task It_ends(string said)
    {
        await using var pages = await RunningPages.StartAsync(
            new Scenes().Ready(), new WebOptions { Listen = new(IPAddress.Loopback, 0), IdleConnection = TimeSpan.FromSeconds(0.5), SlowBody = TimeSpan.FromSeconds(1.1) });
        using var connection = new TcpClient();
        await connection.ConnectAsync(IPAddress.Loopback, pages.Address.Port, Cancel);
        var stream = connection.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(said), Cancel);

        await ReadToEndAsync(stream).WaitAsync(Patience, Cancel);

        using var browser = pages.Browser();
        using var page = await browser.GetAsync("/", Cancel);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
    }

    private static async Task ReadToEndAsync(NetworkStream stream)
    {
        var bytes = new byte[4096];
        try
        {
            while (await stream.ReadAsync(bytes, Cancel) > 0)
            {
            }
        }
        catch (IOException)
        {
            // Ended with a reset, which is an end too.
        }
    }
}
