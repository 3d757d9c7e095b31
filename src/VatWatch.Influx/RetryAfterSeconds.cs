using System.Net.Http.Headers;

namespace VatWatch.Influx;

/// <summary>
/// Turns a <c>Retry-After</c> that is a date (RFC 9110 §10.2.3 allows both) into seconds: InfluxDB.Client 5.1.0 throws a
/// <see cref="FormatException"/> on a date and the reply is lost.
/// </summary>
internal sealed class RetryAfterSeconds(HttpMessageHandler inner, TimeProvider time) : DelegatingHandler(inner)
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var reply = await base.SendAsync(request, cancellationToken);
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
}
