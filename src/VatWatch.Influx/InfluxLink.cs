using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography.X509Certificates;
using InfluxDB.Client;
using InfluxDB.Client.Api.Domain;
using InfluxDB.Client.Core.Exceptions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Influx;

/// <summary>
/// One server, one bucket: sends points and tells what came of it. The token is read from its file at the first request and again after a 401.
/// Not thread safe.
/// </summary>
/// <remarks>
/// Uses <see cref="WriteApiAsync"/>: one call is one request, and it returns or throws. The client's buffered <c>WriteApi</c> drops a batch after
/// its retries. The client reports what the network does as <see cref="HttpException"/> with status 0.
/// </remarks>
internal sealed class InfluxLink(InfluxOptions options, TimeProvider time) : IInfluxLink, IDisposable
{
    private HttpClient? _http;
    private InfluxDBClient? _client;

    public async Task<WriteReply> WriteAsync(IReadOnlyList<string> lines, CancellationToken cancel)
    {
        if (_client is null && Open() is { } fault)
        {
            return new(WriteReplyKind.Refused, fault);
        }

        using var deadline = new Deadline(options.Timeout, time, cancel);
        var reply = await SendAsync(lines, deadline);
        cancel.ThrowIfCancellationRequested();
        return reply;
    }

    /// <summary>Closes the connections; the next request opens new ones.</summary>
    public void Dispose() => Close();

    private async Task<WriteReply> SendAsync(IReadOnlyList<string> lines, Deadline deadline)
    {
        try
        {
            var reply = await _client!.GetWriteApiAsync().WriteRecordsAsyncWithIRestResponse(lines, WritePrecision.Ns, options.Bucket, options.Org, deadline.Token);
            return reply.StatusCode == HttpStatusCode.NoContent
                ? new(WriteReplyKind.Accepted)
                : new(WriteReplyKind.Refused, $"it answered {(int)reply.StatusCode}; wanted 204, as InfluxDB 2 answers a write");
        }
        catch (HttpException caught)
        {
            if (caught.Status == (int)HttpStatusCode.Unauthorized)
            {
                Close();
            }

            return deadline.HasPassed && caught.Status == 0
                ? new(WriteReplyKind.Away, $"it did not answer within {options.Timeout.TotalSeconds} s")
                : Read(caught);
        }
    }

    private static WriteReply Read(HttpException caught)
    {
        var status = caught.Status;
        var reason = Clause(status, caught.Message);
        var kind = status switch
        {
            400 or 422 => WriteReplyKind.BadPoints,
            413 => WriteReplyKind.TooLarge,
            0 or 408 or 429 or >= 500 => WriteReplyKind.Away,
            _ => WriteReplyKind.Refused,
        };
        return new(kind, reason, caught.RetryAfter is > 0 ? TimeSpan.FromSeconds(caught.RetryAfter.Value) : null, status == 400);
    }

    /// <summary>A reason that fits into a sentence of one line.</summary>
    private static string Clause(int status, string? message)
    {
        var words = FreeText.Quoted(message);
        return status == 0 ? words : words.Length == 0 ? $"it answered {status}" : $"it answered {status}, {words}";
    }

    private string? Open()
    {
        if (SecretFile.TryRead(options.TokenFile, out var fault, InfluxOptions.Secret) is not { } token)
        {
            return fault;
        }

        var handler = new SocketsHttpHandler { AllowAutoRedirect = false, ConnectTimeout = options.Timeout, PooledConnectionLifetime = ConnectionLife };
        if (options.CaFile is { } file)
        {
            if (AuthorityFile.TryRead(file, out var wrong) is not { } authorities)
            {
                handler.Dispose();
                return wrong;
            }

            handler.SslOptions.CertificateChainPolicy = Trusting(authorities);
        }

        _http = new HttpClient(new RetryAfterSeconds(handler, time)) { Timeout = Timeout.InfiniteTimeSpan };
        _client = new InfluxDBClient(new InfluxDBClientOptions(options.Url.AbsoluteUri) { Token = token, HttpClient = _http });
        _client.EnableGzip();
        return null;
    }

    /// <summary>Only these authorities. Revocation is not asked for: a studio's own authority has no list, and no network may be there to ask.</summary>
    private static X509ChainPolicy Trusting(X509Certificate2Collection authorities)
    {
        var policy = new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
        policy.CustomTrustStore.AddRange(authorities);
        return policy;
    }

    private void Close()
    {
        _client?.Dispose();
        _http?.Dispose();
        _client = null;
        _http = null;
    }

    /// <summary>So that a server that has moved to another address is found again.</summary>
    private static readonly TimeSpan ConnectionLife = TimeSpan.FromMinutes(10);
}

/// <summary>
/// Turns a <c>Retry-After</c> that is a date (RFC 9110 §10.2.3 allows both) into seconds: InfluxDB.Client 5.1.0 throws a
/// <see cref="FormatException"/> on a date and the reply is lost. An answer without end is cut off: the library would keep all of it in memory.
/// </summary>
internal sealed class RetryAfterSeconds(HttpMessageHandler inner, TimeProvider time) : DelegatingHandler(inner)
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var reply = await base.SendAsync(request, cancellationToken);
        await reply.Content.LoadIntoBufferAsync(LongestAnswer, cancellationToken);
        if (reply.Headers.RetryAfter?.Date is { } date)
        {
            var wait = Math.Max(0, Math.Ceiling((date - time.GetUtcNow()).TotalSeconds));
            reply.Headers.RetryAfter = new RetryConditionHeaderValue(TimeSpan.FromSeconds(wait));
        }
        else if (reply.Headers.RetryAfter is null)
        {
            // What is neither is ignored, not a fault.
            reply.Headers.Remove("Retry-After");
        }

        return reply;
    }

    /// <summary>Bytes of an answer; real ones have a sentence or two.</summary>
    private const int LongestAnswer = 64 * 1024;
}
