using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Reads the JSON body of a request.</summary>
internal static class JsonBody
{
    /// <summary>The body; or the problem to answer with.</summary>
    /// <param name="context">The request.</param>
    /// <param name="shape">What is wanted.</param>
    /// <param name="example">What such a body looks like, for the problem's sentence.</param>
    public static async Task<(T? Body, IResult? Problem)> ReadAsync<T>(HttpContext context, JsonTypeInfo<T> shape, string example)
        where T : class
    {
        if (!context.Request.HasJsonContentType())
        {
            return (null, Problems.Answer(415, "The body is not declared as application/json."));
        }

        try
        {
            if (await JsonSerializer.DeserializeAsync(context.Request.Body, shape, context.RequestAborted) is { } body)
            {
                ConnectionPlace.Keep(context);
                return (body, null);
            }
        }
        catch (JsonException)
        {
            // Answered below: what was wanted says more than where the parser stopped.
        }

        return (null, Problems.Answer(400, $"The body is no JSON object with the fields wanted. An example: {example}."));
    }
}
