using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.WebUtilities;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web;

/// <summary>Turns whatever goes wrong into a plain page for people or problem details for programs; the details go to the log only.</summary>
internal sealed class ErrorReplies(ILogger<ErrorReplies> log)
{
    /// <summary>Middleware; everything that can fail comes after it.</summary>
    public async Task GuardAsync(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
        }
        catch (OperationCanceledException ended) when (context.RequestAborted.IsCancellationRequested || ended.InnerException is ConnectionAbortedException)
        {
            return;
        }
        catch (BadHttpRequestException problem) when (!context.Response.HasStarted)
        {
            context.Response.StatusCode = problem.StatusCode;
        }
        catch (Exception problem) when (!context.Response.HasStarted)
        {
            Log.RequestFailed(log, problem, context.Request.Method, context.Request.Path);
            context.Response.StatusCode = StatusCodes.Status500InternalServerError;
        }

        if (!context.Response.HasStarted && context.Response is { StatusCode: >= 400, ContentType: null, ContentLength: null })
        {
            await WriteAsync(context, context.Response.StatusCode);
        }
    }

    // The page maker is asked for only now: a daemon that nobody looks at then carries no page machinery in memory.
    private static async Task WriteAsync(HttpContext context, int status)
    {
        var sentence = Sentence(status);
        if (Problems.IsForPrograms(context.Request.Path))
        {
            await Problems.WriteAsync(context, status, sentence);
        }
        else
        {
            await context.RequestServices.GetRequiredService<PageMaker>().SendMessageAsync(context, status, ReasonPhrases.GetReasonPhrase(status), sentence);
        }
    }

    private static string Sentence(int status) => status switch
    {
        StatusCodes.Status404NotFound => "There is nothing at this address.",
        StatusCodes.Status405MethodNotAllowed => "This address does not take that kind of request.",
        StatusCodes.Status413PayloadTooLarge => "The request is too large; 64 KB is the most, and 8 MB for a picture.",
        StatusCodes.Status503ServiceUnavailable => "This takes too long just now; try again in a while.",
        >= 500 => "Something went wrong in VatWatch; its log has the details. Watching and alarms go on.",
        _ => "The request could not be understood.",
    };
}
