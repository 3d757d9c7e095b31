using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Errors for programs: problem details (RFC 9457), one plain sentence, never a stack trace.</summary>
internal static class Problems
{
    /// <summary>Whether a path is asked for by programs rather than people.</summary>
    public static bool IsForPrograms(PathString path) =>
        path.StartsWithSegments("/api") || path.StartsWithSegments("/health") || path.StartsWithSegments("/metrics");

    /// <summary>An answer for a handler to return.</summary>
    public static IResult Answer(int status, string sentence) => new ProblemAnswer(status, sentence);

    /// <summary>The answer to an address that names a vat nobody configured.</summary>
    public static IResult NoVat() => Answer(404, "There is no such vat; /api/vats lists them.");

    /// <summary>Writes the whole answer.</summary>
    public static Task WriteAsync(HttpContext context, int status, string sentence)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "application/problem+json";
        var problem = new ProblemDetails { Status = status, Title = ReasonPhrases.GetReasonPhrase(status), Detail = sentence, Instance = context.Request.Path };
        return context.Response.Body.WriteAsync(JsonSerializer.SerializeToUtf8Bytes(problem, ApiJson.Default.ProblemDetails), context.RequestAborted).AsTask();
    }

    private sealed class ProblemAnswer(int status, string sentence) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext) => WriteAsync(httpContext, status, sentence);
    }
}
