using Microsoft.AspNetCore.Antiforgery;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>Takes the acknowledge form of a page and goes back to that page.</summary>
internal static class AcknowledgeForm
{
    /// <summary>Form field of the person's name.</summary>
    public const string NameField = "by";

    /// <summary>Form field of the page to come back to.</summary>
    public const string FromField = "from";

    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapPost("/vats/{vat}/alarms/{alarm}/acknowledge", TakeAsync).ExcludeFromDescription();

    private static async Task TakeAsync(
        string vat, string alarm, HttpContext context, [Service] IAntiforgery antiforgery, [Service] PageMaker pages, [Service] AlarmWindow window)
    {
        if (!context.Request.HasFormContentType || !await antiforgery.IsRequestValidAsync(context))
        {
            await pages.SendMessageAsync(context, StatusCodes.Status400BadRequest, "Not acknowledged",
                "The form was too old or did not come from this page. Go back, reload the page and try again.");
            return;
        }

        var form = await context.Request.ReadFormAsync(context.RequestAborted);
        if (AlarmWindow.TidyName(form[NameField]) is not { } by)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status400BadRequest, "Not acknowledged",
                $"The alarm needs {AlarmWindow.WantedName}, so that the log says who has seen it. Go back and fill it in.");
            return;
        }

        switch (await window.AcknowledgeAsync(vat, alarm, by, "page", context.RequestAborted))
        {
            case AcknowledgeOutcome.OnDisk:
                Remember(by, context);
                context.Response.StatusCode = StatusCodes.Status303SeeOther;
                context.Response.Headers.Location = LocalPath.Of(form[FromField]);
                break;
            case AcknowledgeOutcome.NothingToAcknowledge:
                await pages.SendMessageAsync(context, StatusCodes.Status409Conflict, "Nothing to acknowledge",
                    "The alarm is already acknowledged or back to normal, or there is no such alarm.");
                break;
            default:
                await pages.SendMessageAsync(context, StatusCodes.Status503ServiceUnavailable, "Perhaps not acknowledged",
                    "The store did not confirm it within 10 s. Look at the alarm and try again.");
                break;
        }
    }

    private static void Remember(string by, HttpContext context) => context.Response.Cookies.Append(PageMaker.NameCookie, by, new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        MaxAge = TimeSpan.FromDays(365),
    });
}
