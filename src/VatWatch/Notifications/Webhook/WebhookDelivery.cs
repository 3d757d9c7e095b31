using System.Net.Http.Headers;
using System.Security.Authentication;
using System.Text;
using VatWatch.Notifications.Contacts;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Webhook;

/// <summary>Brings sentences to one contact by HTTP POST. Redirects are not followed, cookies are not kept, answers are read up to a bound.</summary>
internal sealed class WebhookDelivery : IDelivery
{
    private readonly WebhookOptions _options;
    private readonly string _site;
    private readonly string _contact;
    private readonly AlarmPages _pages;
    private readonly WebhookTimings _timings;
    private readonly TimeProvider _time;
    private readonly HttpClient _client;

    /// <summary>Opens nothing yet.</summary>
    public WebhookDelivery(WebhookOptions options, string site, Contact contact, AlarmPages pages, WebhookTimings timings, TimeProvider time)
    {
        (_options, _site, _contact, _pages, _timings, _time) = (options, site, contact.Id, pages, timings, time);
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            ConnectTimeout = timings.Connect,
            PooledConnectionLifetime = TimeSpan.FromMinutes(5),
            MaxResponseHeadersLength = 16,
        };
        _client = new HttpClient(handler) { Timeout = Timeout.InfiniteTimeSpan };
        _client.DefaultRequestHeaders.UserAgent.ParseAdd("VatWatch");
    }

    public async Task<DeliveryOutcome> SendAsync(Notification notification, string key, CancellationToken cancel)
    {
        string? secret = null;
        if (_options.SecretFile is { } file && (secret = SecretFile.TryRead(file, out var fault)) is null)
        {
            return DeliveryOutcome.Later($"secretFile: {fault}") with { NeedsPerson = true };
        }

        using var limit = new Deadline(_timings.Request, _time, cancel);
        try
        {
            using var request = Request(CloudEvent.Of(notification, key, _site, _contact, _pages.Of(notification)), secret);
            using var response = await _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, limit.Token);
            return Judge(response, await ReadStartAsync(response, limit.Token));
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested && wrong is HttpRequestException or IOException or OperationCanceledException)
        {
            return DeliveryOutcome.Later($"{Where}: {(limit.HasPassed ? $"no answer within {_timings.Request.TotalSeconds:0.#} s" : Clause(wrong))}");
        }
    }

    public ValueTask DisposeAsync()
    {
        _client.Dispose();
        return ValueTask.CompletedTask;
    }

    /// <summary>The address without its path and query, which may hold a key of the receiver's.</summary>
    private string Where => _options.Url.GetLeftPart(UriPartial.Authority);

    private HttpRequestMessage Request(byte[] body, string? secret)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, _options.Url) { Content = new ByteArrayContent(body) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(CloudEvent.ContentType) { CharSet = "utf-8" };
        if (secret is not null)
        {
            var (digest, input, signature) = WebhookSignature.Of(
                secret, _contact, _time.GetUtcNow().ToUnixTimeSeconds(), _options.Url, request.Content.Headers.ContentType.ToString(), body);
            request.Content.Headers.Add(WebhookSignature.DigestHeader, digest);
            request.Headers.Add(WebhookSignature.InputHeader, input);
            request.Headers.Add(WebhookSignature.SignatureHeader, signature);
        }

        return request;
    }

    /// <summary>
    /// 2xx is taken. 408, 425, 429 and 5xx pass by themselves; 401, 403, 404 and redirects are mended by a person. Every other 4xx says that
    /// this very event is wrong, and the same event will not be right later.
    /// </summary>
    private DeliveryOutcome Judge(HttpResponseMessage response, string said)
    {
        var code = (int)response.StatusCode;
        var answer = $"{Where} answered {code}{(said.Length > 0 ? $" ({said})" : "")}";
        if (response.IsSuccessStatusCode)
        {
            return DeliveryOutcome.Taken(answer);
        }

        return code switch
        {
            408 or 425 or 429 or >= 500 => DeliveryOutcome.Later(answer) with { Wait = RetryAfter(response) },
            401 or 403 or 404 or 410 => DeliveryOutcome.Later($"{answer}; look at url and secretFile") with { NeedsPerson = true },
            < 400 => DeliveryOutcome.Later($"{answer}; a redirect is not followed, so name the address it leads to") with { NeedsPerson = true },
            _ => DeliveryOutcome.Never(answer),
        };
    }

    /// <summary>Retry-After of RFC 9110 §10.2.3: seconds or a date.</summary>
    private TimeSpan? RetryAfter(HttpResponseMessage response) => response.Headers.RetryAfter switch
    {
        { Delta: { } delta } => delta,
        { Date: { } date } when date > _time.GetUtcNow() => date - _time.GetUtcNow(),
        _ => null,
    };

    private async Task<string> ReadStartAsync(HttpResponseMessage response, CancellationToken cancel)
    {
        var bytes = new byte[_timings.AnswerBytes];
        await using var body = await response.Content.ReadAsStreamAsync(cancel);
        var length = await body.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, cancel);
        return FreeText.Quoted(Encoding.UTF8.GetString(bytes, 0, length));
    }

    private static string Clause(Exception wrong)
    {
        for (var at = wrong; at is not null; at = at.InnerException!)
        {
            if (at is AuthenticationException tls)
            {
                return $"its certificate or encryption was not accepted ({FreeText.Quoted(tls.Message)})";
            }
        }

        return NetworkText.Find(wrong) ?? $"the connection broke off ({FreeText.Quoted(wrong.GetBaseException().Message)})";
    }
}
