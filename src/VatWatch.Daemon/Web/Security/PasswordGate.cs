using System.Net.Http.Headers;
using System.Security.Claims;
using System.Text;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using VatWatch.Daemon.Web.Api;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// With a password set, lets through only who has it: a browser by the cookie the login page gave, a program by HTTP Basic (RFC 7617, any
/// user name). Everything is shut but the few paths a stranger needs. Without a password it lets everybody through.
/// </summary>
internal sealed class PasswordGate(WebOptions options, LoginThrottle throttle)
{
    /// <summary>Name of the cookie and of its scheme.</summary>
    public const string Scheme = "vatwatch.session";

    private const string FingerprintClaim = "vatwatch.password";
    private volatile string? _lastGoodHeader;

    /// <summary>The user a session cookie stands for; it ends when the password changes.</summary>
    public ClaimsPrincipal NewSession() =>
        new(new ClaimsIdentity([new(FingerprintClaim, options.Password?.Fingerprint ?? "")], Scheme));

    /// <summary>Middleware.</summary>
    public async Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        if (options.Password is null || IsOpen(context.Request.Path) || await HasSessionAsync(context))
        {
            await next(context);
            return;
        }

        var isForPrograms = Problems.IsForPrograms(context.Request.Path);
        switch (isForPrograms ? await HasBasicAsync(context) : false)
        {
            case true:
                await next(context);
                break;
            case null:
                context.Response.Headers.RetryAfter = "60";
                await Problems.WriteAsync(context, StatusCodes.Status429TooManyRequests, "Too many wrong passwords; wait a minute.");
                break;
            case false when isForPrograms:
                context.Response.Headers.WWWAuthenticate = "Basic realm=\"VatWatch\", charset=\"UTF-8\"";
                await Problems.WriteAsync(context, StatusCodes.Status401Unauthorized, "This needs the password: HTTP Basic with any user name, or a signed-in browser.");
                break;
            default:
                var wanted = HttpMethods.IsGet(context.Request.Method) ? context.Request.Path + context.Request.QueryString : "/";
                context.Response.Redirect("/login?from=" + Uri.EscapeDataString(wanted));
                break;
        }
    }

    /// <summary>Whether a signed-in session of the present password asks; also true where no password is set.</summary>
    public async Task<bool> HasSessionAsync(HttpContext context)
    {
        if (options.Password is null)
        {
            return true;
        }

        var result = await context.AuthenticateAsync(Scheme);
        return result.Principal?.FindFirst(FingerprintClaim)?.Value == options.Password.Fingerprint;
    }

    /// <summary>Cookie settings of a session.</summary>
    public void Configure(CookieAuthenticationOptions cookie)
    {
        cookie.Cookie.Name = Scheme;
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Lax;
        cookie.Cookie.SecurePolicy = options.Certificate is null ? CookieSecurePolicy.SameAsRequest : CookieSecurePolicy.Always;

        // A month: nobody should have to type a password when an alarm wakes them.
        cookie.ExpireTimeSpan = TimeSpan.FromDays(30);
        cookie.SlidingExpiration = true;
    }

    private static bool IsOpen(PathString path) =>
        path == "/login" || path.StartsWithSegments("/assets") || path == "/health/live" || path == "/health/ready";

    private async Task<bool?> HasBasicAsync(HttpContext context)
    {
        var text = context.Request.Headers.Authorization.ToString();
        if (text.Length == 0 || !AuthenticationHeaderValue.TryParse(text, out var header) || header is not { Scheme: "Basic", Parameter: { } parameter })
        {
            return false;
        }

        // The slow check once, not at every scrape.
        if (text == _lastGoodHeader)
        {
            return true;
        }

        var bytes = new byte[parameter.Length];
        if (!Convert.TryFromBase64String(parameter, bytes, out var length))
        {
            return false;
        }

        var pair = Encoding.UTF8.GetString(bytes, 0, length);
        var password = pair[(pair.IndexOf(':', StringComparison.Ordinal) + 1)..];
        var right = await throttle.CheckAsync(options.Password!, password, context.Connection.RemoteIpAddress, context.RequestAborted);
        if (right is true)
        {
            _lastGoodHeader = text;
        }

        return right;
    }
}
