using System.Collections.Concurrent;
using System.Globalization;
using System.IO.Compression;
using System.Net;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace VatWatch.Testing;

/// <summary>
/// A server on a real socket that takes writes as InfluxDB 2 does and keeps every point by series and time, to the nanosecond. It can be told
/// to refuse, to be slow, and be stopped and started again on its port. It stands in only for what Debian's server cannot keep: that one has
/// milliseconds.
/// </summary>
internal sealed class RecordingInflux : IAsyncDisposable
{
    private readonly StudioCertificates? _certificates;
    private readonly ConcurrentQueue<RecordedReply> _next = new();
    private WebApplication? _app;

    private RecordingInflux(StudioCertificates? certificates) => _certificates = certificates;

    /// <summary>Port on 127.0.0.1.</summary>
    public int Port { get; } = FreePort.Next();

    /// <summary>Its address.</summary>
    public string Url => string.Create(CultureInfo.InvariantCulture, $"{(_certificates is null ? "http" : "https")}://localhost:{Port}");

    /// <summary>Fields of every point by series and nanoseconds, as InfluxDB keeps them: the same again takes its place.</summary>
    public ConcurrentDictionary<(string Series, string Time), string> Points { get; } = new();

    /// <summary>Points that took the place of one with other fields.</summary>
    public int Changed => _changed;

    /// <summary>Writes that came, whatever was answered: their points, with query and headers.</summary>
    public ConcurrentQueue<RecordedWrite> Writes { get; } = new();

    /// <summary>A token that is asked for; null takes any.</summary>
    public string? Token { get; set; }

    /// <summary>Writes of more points than this are too large.</summary>
    public int MostPoints { get; set; } = int.MaxValue;

    /// <summary>Points that are refused: the others of the write are kept, as InfluxDB keeps them, and the reply is <see cref="BadReply"/>.</summary>
    public Func<string, bool> IsBad { get; set; } = _ => false;

    /// <summary>Reply to a write with bad points.</summary>
    public RecordedReply BadReply { get; set; } = RecordedReply.Unprocessable;

    /// <summary>How long it takes to answer.</summary>
    public TimeSpan Delay { get; set; }

    private int _changed;

    /// <summary>Starts one; with certificates it speaks TLS.</summary>
    public static async Task<RecordingInflux> StartAsync(StudioCertificates? certificates = null)
    {
        var server = new RecordingInflux(certificates);
        await server.StartAgainAsync();
        return server;
    }

    /// <summary>Starts it after <see cref="StopAsync"/>, with all its points.</summary>
    public async Task StartAgainAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, Port, listen =>
        {
            if (_certificates is { } certificates)
            {
                using var pem = X509Certificate2.CreateFromPemFile(certificates.ServerCertificate, certificates.ServerKey);
                listen.UseHttps(X509CertificateLoader.LoadPkcs12(pem.Export(X509ContentType.Pkcs12), null));
            }
        }));
        _app = builder.Build();
        _app.MapPost("/api/v2/write", WriteAsync);
        await _app.StartAsync();
    }

    /// <summary>Ends it; its points stay.</summary>
    public async Task StopAsync()
    {
        if (_app is { } app)
        {
            _app = null;
            using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(1));
            await app.StopAsync(limit.Token);
            await app.DisposeAsync();
        }
    }

    /// <summary>Answers the next writes with these and keeps nothing of them unless the reply is 204.</summary>
    public void Answer(params RecordedReply[] replies)
    {
        foreach (var reply in replies)
        {
            _next.Enqueue(reply);
        }
    }

    /// <summary>Points of one measurement of one site.</summary>
    public int CountOf(string measurement, string site) => Points.Keys.Count(key => key.Series.StartsWith($"{measurement},site={site},", StringComparison.Ordinal));

    public async ValueTask DisposeAsync() => await StopAsync();

    private async Task WriteAsync(HttpContext http)
    {
        var isGzip = http.Request.Headers.ContentEncoding == "gzip";
        using var body = new StreamReader(isGzip ? new GZipStream(http.Request.Body, CompressionMode.Decompress) : http.Request.Body);
        var lines = (await body.ReadToEndAsync(http.RequestAborted)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Writes.Enqueue(new(lines, http.Request.QueryString.Value ?? "", isGzip, http.Request.Headers.Authorization.ToString()));
        await Task.Delay(Delay, http.RequestAborted);
        var reply = Judge(http, lines);
        http.Response.StatusCode = reply.Status;
        http.Response.Headers.RetryAfter = reply.RetryAfter;
        if (reply.Body is { } words)
        {
            http.Response.ContentType = words.StartsWith('{') ? "application/json; charset=utf-8" : "text/html";
            await http.Response.WriteAsync(words, http.RequestAborted);
        }
    }

    private RecordedReply Judge(HttpContext http, string[] lines)
    {
        if (Token is { } token && http.Request.Headers.Authorization != $"Token {token}")
        {
            return RecordedReply.Unauthorized;
        }

        if (lines.Length > MostPoints)
        {
            return RecordedReply.TooLarge;
        }

        if (_next.TryDequeue(out var reply) && reply.Status != 204)
        {
            return reply;
        }

        var good = lines.Where(line => !IsBad(line)).ToList();
        good.ForEach(Keep);
        return good.Count == lines.Length ? RecordedReply.Accepted : BadReply;
    }

    private void Keep(string line)
    {
        var series = SeriesEnd(line);
        var time = line.LastIndexOf(' ');
        var (key, fields) = ((line[..series], line[(time + 1)..]), line[(series + 1)..time]);
        if (!Points.TryAdd(key, fields) && Points[key] != fields)
        {
            Interlocked.Increment(ref _changed);
            Points[key] = fields;
        }
    }

    /// <summary>The first space that no backslash stands before.</summary>
    private static int SeriesEnd(string line)
    {
        var end = line.IndexOf(' ');
        while (line[end - 1] == '\\')
        {
            end = line.IndexOf(' ', end + 1);
        }

        return end;
    }
}
