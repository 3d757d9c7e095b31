using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests;

/// <summary>Visitors who mean harm, or a broken program: the vat is watched on, nobody learns anything, and what they took is given back.</summary>
[Trait("Campaign", "faults")]
[Trait("Runs", "alone")]
public sealed class HostileVisitorsTests
{
    private const int Held = 500;
    private const int OddPaths = 1000;
    private const int LargeBodies = 8;
    private const int BodyBytes = 10 * 1024 * 1024;

    /// <summary>What may stay in memory afterwards.</summary>
    private const long MostKept = 40L * 1024 * 1024;

    private const int Pictures = 12;

    /// <summary>What pictures may take while they are drawn afresh; drawn as they come, one takes 300 MB.</summary>
    private const long MostForPictures = 160L * 1024 * 1024;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Held_connections_large_bodies_and_odd_paths_leave_the_watch_alone()
    {
        using var studio = new Studio();
        await using var instrument = await PtyInstrument.AskedAsync();
        studio.WriteBenchConfig(instrument.Port, string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "builtin", "listen": "127.0.0.1:{{FreePort.Next()}}" }"""));
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        using var visitor = new HttpClient { BaseAddress = new(studio.Url), Timeout = Patience };
        await Eventually.TrueAsync(() => watch.Output.Contains("Watching", StringComparison.Ordinal), "the daemon watches", Patience);
        await visitor.GetStringAsync("/", TestContext.Current.CancellationToken);
        var before = Memory(watch);

        var began = DateTimeOffset.UtcNow;
        var slow = await HoldAsync(studio.WebPort);
        await AskMeanwhileAsync(studio.Url);
        await slow;
        await SendLargeBodiesAsync(visitor);
        await AskOddPathsAsync(visitor);
        var ended = DateTimeOffset.UtcNow;

        Assert.Contains("Weld Yard vat", await visitor.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await Eventually.TrueAsync(() => Memory(watch) < before + MostKept, $"memory comes back to {before >> 20} MB and {MostKept >> 20} MB at most", Patience);
        Tell($"memory {before >> 20} MB before, {Memory(watch) >> 20} MB after");
        FaultFigures.AtMost("hostile page use", $"{Held} held connections, {LargeBodies} bodies of 10 MB, {OddPaths} odd paths", "memory kept afterwards", (Memory(watch) - before) / 1048576.0, MostKept / 1048576.0, "MB");
        await SendPicturesAsync(visitor, watch);
        Assert.Equal(0, await watch.StopAsync(Patience));
        Assert.DoesNotContain("   at ", watch.Output + watch.Errors, StringComparison.Ordinal);
        await TellCadenceAsync(studio, began, ended);
    }

    /// <summary>Opens connections that send their headers a byte at a time, until the daemon hangs up on each.</summary>
    private static async Task<Task> HoldAsync(int port)
    {
        var held = new List<Task>();
        for (var i = 0; i < Held; i++)
        {
            var socket = new TcpClient();
            try
            {
                await socket.ConnectAsync(IPAddress.Loopback, port, TestContext.Current.CancellationToken);
                held.Add(DribbleAsync(socket));
            }
            catch (SocketException hungUp) when (hungUp.SocketErrorCode == SocketError.ConnectionReset)
            {
                // One too many: the daemon hung up before this side had seen that it was connected.
                socket.Dispose();
            }
        }

        return Task.WhenAll(held);
    }

    /// <summary>Somebody else at the same address looks at the page: a held connection makes room.</summary>
    private static async Task AskMeanwhileAsync(string url)
    {
        using var owner = new HttpClient { BaseAddress = new(url), Timeout = Patience };
        var asked = Stopwatch.StartNew();
        Assert.Contains("Weld Yard vat", await owner.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        FaultFigures.AtMost("hostile page use", $"{Held} held connections", "the page shown to another of the same address after", asked.Elapsed.TotalSeconds, 5, "s");
    }

    private static async Task DribbleAsync(TcpClient socket)
    {
        using (socket)
        {
            var stream = socket.GetStream();
            var limit = Stopwatch.StartNew();
            try
            {
                await stream.WriteAsync("GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: "u8.ToArray(), TestContext.Current.CancellationToken);
                while (limit.Elapsed < Patience)
                {
                    await stream.WriteAsync("a"u8.ToArray(), TestContext.Current.CancellationToken);
                    await Task.Delay(TimeSpan.FromMilliseconds(500), TestContext.Current.CancellationToken);
                }
            }
            catch (IOException)
            {
                return;
            }
        }

        Assert.Fail($"a connection that never finished its headers was still open after {Patience}");
    }

    private static async Task SendLargeBodiesAsync(HttpClient visitor)
    {
        for (var i = 0; i < LargeBodies; i++)
        {
            using var body = new ByteArrayContent(new byte[BodyBytes]);
            body.Headers.ContentType = new("application/json");
            try
            {
                using var reply = await visitor.PostAsync("/api/vats/weld-yard/alarms/overheat/acknowledge", body, TestContext.Current.CancellationToken);
                Assert.Equal(HttpStatusCode.RequestEntityTooLarge, reply.StatusCode);
            }
            catch (HttpRequestException)
            {
                // Hanging up in the middle of it is as good an answer.
            }
        }
    }

    private static async Task AskOddPathsAsync(HttpClient visitor)
    {
        for (var i = 0; i < OddPaths; i++)
        {
            using var request = new HttpRequestMessage(i % 7 == 0 ? HttpMethod.Post : HttpMethod.Get, new Uri(visitor.BaseAddress!, OddPath(i)));
            using var reply = await visitor.SendAsync(request, TestContext.Current.CancellationToken);
            var text = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            Assert.True((int)reply.StatusCode < 500, $"{request.RequestUri} answered {reply.StatusCode}");
            Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        }
    }

    private static string OddPath(int i)
    {
        var random = new Random(i);
        var bytes = new byte[random.Next(1, 60)];
        random.NextBytes(bytes);
        var noise = string.Concat(bytes.Select(one => $"%{one:X2}"));
        return (i % 8) switch
        {
            0 => $"/{noise}",
            1 => $"/vats/{noise}",
            2 => $"/api/vats/{noise}/chart?from={noise}&to={noise}&width={noise}",
            3 => $"/assets/..%2f..%2f{noise}",
            4 => $"/vats/weld-yard?hours={noise}",
            5 => $"/alarms?before={noise}",
            6 => $"/vats/weld-yard/chart.svg/{noise}",
            _ => $"/{new string('a', 20 * (i % 300))}",
        };
    }

    /// <summary>A dozen photographs as large as one may be, and small files that claim far more pixels than they have bytes.</summary>
    private static async Task SendPicturesAsync(HttpClient visitor, VatWatchProcess watch)
    {
        var before = Memory(watch);
        var photograph = GreyJpeg.Of(4000, 3000, leastBytes: 8 * 1000 * 1000);
        for (var i = 0; i < Pictures; i++)
        {
            Assert.Equal(HttpStatusCode.OK, await SendPictureAsync(visitor, photograph));
        }

        Assert.Equal(HttpStatusCode.OK, await SendPictureAsync(visitor, GreyJpeg.Of(7000, 7000)));
        Assert.Equal(HttpStatusCode.BadRequest, await SendPictureAsync(visitor, GreyJpeg.Of(7000, 7000, isProgressive: true)));
        Assert.Equal(HttpStatusCode.BadRequest, await SendPictureAsync(visitor, GreyJpeg.Of(10_000, 10_000)));
        var size = $"{Pictures} of 8 MB, 3 of 49 to 100 million pixels";
        FaultFigures.AtMost("pictures", size, "memory on top at its highest", (Memory(watch, "VmHWM:") - before) / 1048576.0, MostForPictures / 1048576.0, "MB");
        FaultFigures.AtMost("pictures", size, "memory kept afterwards", (Memory(watch) - before) / 1048576.0, MostKept / 1048576.0, "MB");
    }

    private static async Task<HttpStatusCode> SendPictureAsync(HttpClient visitor, byte[] file)
    {
        using var picture = new ByteArrayContent(file);
        picture.Headers.ContentType = new("image/jpeg");
        using var reply = await visitor.PostAsync("/api/vats/weld-yard/photos?by=Ada", picture, TestContext.Current.CancellationToken);
        return reply.StatusCode;
    }

    private static long Memory(VatWatchProcess watch, string field = "VmRSS:")
    {
        var line = File.ReadLines($"/proc/{watch.Id}/status").First(one => one.StartsWith(field, StringComparison.Ordinal));
        return long.Parse(new string([.. line.Where(char.IsAsciiDigit)]), CultureInfo.InvariantCulture) * 1024;
    }

    /// <summary>The cadence is told and only its grossest failure asserted: on a busy test machine it is not the daemon's alone.</summary>
    private static async Task TellCadenceAsync(Studio studio, DateTimeOffset began, DateTimeOffset ended)
    {
        var file = Path.Combine(studio.Folder, "attack.csv");
        await VatWatchProcess.RunAsync(Patience, "report", "--config", studio.Config, "--vat", "weld-yard", "--out", file);
        var times = File.ReadLines(file).Where(row => row.Contains(",liquor,", StringComparison.Ordinal))
            .Select(row => DateTimeOffset.Parse(row.Split(',')[0], CultureInfo.InvariantCulture)).Where(time => time > began && time < ended).ToList();
        var off = times.Zip(times.Skip(1), (a, b) => Math.Abs((b - a).TotalMilliseconds - 200)).Order().ToList();
        Assert.True(off.Count > 10, $"{off.Count} readings during the attack");
        Tell(string.Create(CultureInfo.InvariantCulture, $"{off.Count} intervals of 200 ms, off by {off[off.Count / 2]:0} ms at the median, {off[(int)(off.Count * 0.99)]:0} ms at the 99th percentile"));
        Assert.True(off[^1] < 5000, $"a gap of {off[^1]} ms");
    }

    private static void Tell(string words) => TestContext.Current.TestOutputHelper?.WriteLine(words);
}
