using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Security;

/// <summary>Signing in with the password, and out again.</summary>
internal static class LoginForm
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        var login = routes.MapGroup("").ExcludeFromDescription();
        login.MapGet("/login", (HttpContext context, [Service] PageMaker pages) => ShowAsync(context, pages, 200, context.Request.Query["from"], null));
        login.MapPost("/login", SignInAsync);
        login.MapPost("/logout", SignOutAsync);
    }

    private static async Task SignInAsync(
        HttpContext context, [Service] IAntiforgery antiforgery, [Service] PageMaker pages, [Service] WebOptions options,
        [Service] LoginThrottle throttle, [Service] PasswordGate gate, [Service] ILoggerFactory loggers)
    {
        if (options.Passwords is not { } passwords)
        {
            context.Response.Redirect("/");
            return;
        }

        if (!context.Request.HasFormContentType || !await FormGate.IsReadableAsync(context) || !await antiforgery.IsRequestValidAsync(context))
        {
            await ShowAsync(context, pages, StatusCodes.Status400BadRequest, "/", "The form was too old; try again.");
            return;
        }

        var form = await context.Request.ReadFormAsync(context.RequestAborted);
        var log = loggers.CreateLogger("VatWatch.Daemon.Web");
        var answer = await throttle.CheckAsync(passwords, form["password"].ToString(), context.Connection.RemoteIpAddress, context.RequestAborted);
        if (answer.Role is { } role)
        {
            Log.SignedIn(log, role.Word(), context.Connection.RemoteIpAddress);
            await context.SignInAsync(PasswordGate.Scheme, gate.NewSession(role), new() { IsPersistent = true });
            context.Response.StatusCode = StatusCodes.Status303SeeOther;
            context.Response.Headers.Location = LocalPath.Of(form["from"]);
        }
        else if (answer.WasLookedAt)
        {
            await ShowAsync(context, pages, StatusCodes.Status401Unauthorized, form["from"], "That is not the password.");
        }
        else
        {
            context.Response.Headers.RetryAfter = "16";
            await ShowAsync(context, pages, StatusCodes.Status429TooManyRequests, form["from"], "After many wrong passwords one at a time is looked at, and another from here is still waiting. Try again in a moment.");
        }
    }

    private static async Task SignOutAsync(HttpContext context, [Service] IAntiforgery antiforgery, [Service] WebOptions options, [Service] PasswordGate gate)
    {
        if (options.Passwords is not null && context.Request.HasFormContentType && await FormGate.IsReadableAsync(context) && await antiforgery.IsRequestValidAsync(context))
        {
            await gate.SignOutAsync(context);
        }

        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = "/";
    }

    private static Task ShowAsync(HttpContext context, PageMaker pages, int status, string? from, string? fault) =>
        pages.SendAsync<LoginPage>(context, status, ("From", LocalPath.Of(from)), ("Fault", fault));
}
