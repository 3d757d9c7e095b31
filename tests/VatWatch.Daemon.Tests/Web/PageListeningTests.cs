using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Web;

public sealed class PageListeningTests
{
    [Fact]
    public async Task A_port_that_another_program_has_is_told_and_taken_once_it_is_free()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var time = new FakeTimeProvider(DateTimeOffset.UtcNow);
        var options = new WebOptions { Listen = (IPEndPoint)other.LocalEndpoint };
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), options, time: time);
        var told = pages.Trouble.Signal();
        Assert.True(told.Active);
        Assert.Equal($"Cannot serve the pages at {options.Url}: another program listens there already; stop it or set web.listen to another port.", told.Sentence);

        other.Stop();
        await Eventually.TrueAsync(
            () =>
            {
                time.Advance(PageListening.Again);
                return pages.Trouble.Sentence is null;
            },
            "the pages are served");
        using var browser = pages.Browser();
        Assert.Contains("Madder Lane vat", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.False(pages.Trouble.Signal().Active);
    }

    [Fact]
    public async Task An_address_that_this_computer_does_not_have_stops_neither_start_nor_end()
    {
        // RFC 5737: an address for documentation, never one of this computer's.
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), new() { Listen = new(IPAddress.Parse("192.0.2.1"), 8080) });
        Assert.Contains("this computer has no such address", pages.Trouble.Sentence, StringComparison.Ordinal);
    }
}
