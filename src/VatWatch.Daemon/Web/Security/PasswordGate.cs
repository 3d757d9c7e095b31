using System.Collections.Concurrent;
using System.Net;
using System.Net.Http.Headers;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// The one place where rights are looked at. With passwords set, it lets through only who has one: a browser by the cookie the login page gave, a
/// program by a token (RFC 6750) or HTTP Basic (RFC 7617, any user name). Everything is shut but the few paths a stranger needs, and whatever
/// is not a plain reading needs an operator, whichever route it belongs to. Without a password everybody is an operator, and so is, password or not, who
/// comes over the local socket.
/// </summary>
internal sealed class PasswordGate(WebOptions options, LoginThrottle throttle, EndedSessions ended, KnownAddresses known, ILogger<PasswordGate> log)
{
    /// <summary>Name of the cookie and of its scheme.</summary>
    public const string Scheme = "vatwatch.session";

    private const string FingerprintClaim = "vatwatch.password";
    private const string SessionClaim = "vatwatch.id";
    private const string Challenge = "Basic realm=\"VatWatch\", charset=\"UTF-8\"";
    private readonly ConcurrentDictionary<(string Token, IPAddress Place), bool> _told = new();
    private volatile KnownHeader? _lastGoodHeader;

    /// <summary>The user a session cookie stands for; it ends when somebody signs out of it or the password changes.</summary>
    public ClaimsPrincipal NewSession(Role role) => new(new ClaimsIdentity(
        [new(FingerprintClaim, options.Passwords?.Fingerprint(role) ?? ""), new(SessionClaim, Convert.ToHexString(RandomNumberGenerator.GetBytes(16)))], Scheme));

    /// <summary>Ends the session of a request here, and not only in its browser.</summary>
    public async Task SignOutAsync(HttpContext context)
    {
        if (Visitor.Of(context) is { Session: { } session })
        {
            ended.Add(session);
            Log.SignedOut(log, context.Connection.RemoteIpAddress);
        }

        await context.SignOutAsync(Scheme);
    }

    /// <summary>Middleware.</summary>
    public async Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        var isReading = HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method);
        if (!isReading && !SameOrigin.Allows(context.Request))
        {
            await RefuseAsync(context, "The request comes from another site's page.");
            return;
        }

        var visitor = await SessionAsync(context);
        visitor?.KeepIn(context);
        if (visitor is null && !IsOpen(context.Request.Path))
        {
            visitor = await ProgramAsync(context);
            if (visitor is null)
            {
                return;
            }

            visitor.KeepIn(context);
        }

        if (!isReading && visitor is { Role: not Role.Operator } && !IsOpen(context.Request.Path))
        {
            await RefuseAsync(context, "Viewers may look at everything and change nothing; sign in as an operator for that.");
            return;
        }

        if (isReading && visitor is not null)
        {
            ConnectionPlace.Keep(context);
        }

        await next(context);
    }

    /// <summary>Whether a signed-in session of the present password asks; also true where no password is set.</summary>
    public async Task<bool> HasSessionAsync(HttpContext context) => await SessionAsync(context) is not null;

    /// <summary>Cookie settings of a session.</summary>
    public void Configure(CookieAuthenticationOptions cookie)
    {
        cookie.Cookie.Name = Scheme;
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Lax;
        cookie.Cookie.SecurePolicy = options.Certificate is null ? CookieSecurePolicy.SameAsRequest : CookieSecurePolicy.Always;

        // A month: nobody should have to type a password when an alarm wakes them.
        cookie.ExpireTimeSpan = EndedSessions.CookieLife;
        cookie.SlidingExpiration = true;
    }

    private static bool IsOpen(PathString path) =>
        path == "/login" || path == "/logout" || path.StartsWithSegments("/assets") || path == "/health/live" || path == "/health/ready";

    private static Task RefuseAsync(HttpContext context, string sentence) => Problems.IsForPrograms(context.Request.Path)
        ? Problems.WriteAsync(context, StatusCodes.Status403Forbidden, sentence)
        : context.RequestServices.GetRequiredService<PageMaker>().SendMessageAsync(context, StatusCodes.Status403Forbidden, "Not done", sentence);

    private async Task<Visitor?> SessionAsync(HttpContext context)
    {
        if (Visitor.ComesLocally(context))
        {
            return Visitor.Local;
        }

        if (options.Passwords is not { } passwords)
        {
            return Visitor.Anybody;
        }

        var result = await context.AuthenticateAsync(Scheme);
        if (passwords.RoleOfFingerprint(result.Principal?.FindFirst(FingerprintClaim)?.Value) is not { } role
            || result.Principal?.FindFirst(SessionClaim)?.Value is not { } session
            || ended.Contains(session))
        {
            return null;
        }

        known.Remember(context.Connection.RemoteIpAddress);
        return new(role, session);
    }

    // Null after having answered. Tokens and Basic are for programs; a browser that lost its session goes to the login page.
    private async Task<Visitor?> ProgramAsync(HttpContext context)
    {
        if (!Problems.IsForPrograms(context.Request.Path))
        {
            var wanted = HttpMethods.IsGet(context.Request.Method) ? context.Request.Path + context.Request.QueryString : "/";
            context.Response.Redirect("/login?from=" + Uri.EscapeDataString(wanted));
            return null;
        }

        var text = context.Request.Headers.Authorization.ToString();
        if (AuthenticationHeaderValue.TryParse(text, out var header) && header.Parameter is { } parameter)
        {
            var answer = header.Scheme switch
            {
                "Bearer" => new LoginAnswer(true, ByToken(context, parameter)),
                "Basic" => await BasicAsync(context, text, parameter),
                _ => new LoginAnswer(true, null),
            };
            if (answer.Role is { } role)
            {
                known.Remember(context.Connection.RemoteIpAddress);
                return new(role, null);
            }

            if (!answer.WasLookedAt)
            {
                context.Response.Headers.RetryAfter = "16";
                await Problems.WriteAsync(context, StatusCodes.Status429TooManyRequests, "A password from this address is still waiting after many wrong ones; send one at a time.");
                return null;
            }
        }

        context.Response.Headers.WWWAuthenticate = options.Tokens.Count > 0 ? new string[] { Challenge, "Bearer realm=\"VatWatch\"" } : Challenge;
        await Problems.WriteAsync(context, StatusCodes.Status401Unauthorized, "This needs a token (Bearer), a password (HTTP Basic with any user name) or a signed-in browser.");
        return null;
    }

    private Role? ByToken(HttpContext context, string secret)
    {
        var address = context.Connection.RemoteIpAddress;
        if (options.Tokens.FirstOrDefault(token => token.Matches(secret)) is not { } found)
        {
            Log.WrongToken(log, address);
            return null;
        }

        if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
        {
            Log.ChangedByToken(log, context.Request.Method, context.Request.Path, found.Name, address);
        }
        else if (_told.Count < MostTold && _told.TryAdd((found.Name, KnownAddresses.PlaceOf(address)), true))
        {
            Log.TokenUsed(log, found.Name, found.Role.Word(), address);
        }

        return found.Role;
    }

    /// <summary>Readings by a token are in the log once for each address, and for no more addresses than these.</summary>
    private const int MostTold = 1000;

    private async Task<LoginAnswer> BasicAsync(HttpContext context, string text, string parameter)
    {
        // The slow check once, not at every scrape.
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(text));
        if (_lastGoodHeader is { } known && CryptographicOperations.FixedTimeEquals(known.Hash, hash))
        {
            return new(true, known.Role);
        }

        var bytes = new byte[parameter.Length];
        if (!Convert.TryFromBase64String(parameter, bytes, out var length))
        {
            return new(true, null);
        }

        var pair = Encoding.UTF8.GetString(bytes, 0, length);
        var password = pair[(pair.IndexOf(':', StringComparison.Ordinal) + 1)..];
        var answer = await throttle.CheckAsync(options.Passwords!, password, context.Connection.RemoteIpAddress, context.RequestAborted);
        if (answer.Role is { } role)
        {
            _lastGoodHeader = new(hash, role);
        }

        return answer;
    }

    /// <summary>A header that held a password: its hash, so that neither a comparison nor the memory gives it away.</summary>
    private sealed record KnownHeader(byte[] Hash, Role Role);
}

/// <summary>
/// Tells whether a change may have been set off by another site's page in the user's browser. Programs that are no browsers send neither header
/// and pass; the pages' own forms carry an anti-forgery token besides.
/// </summary>
internal static class SameOrigin
{
    /// <summary>False when the browser itself says that the request comes from elsewhere (Fetch Metadata; RFC 6454 Origin).</summary>
    public static bool Allows(HttpRequest request)
    {
        var site = request.Headers["Sec-Fetch-Site"].ToString();
        if (site.Length > 0)
        {
            return site is "same-origin" or "none";
        }

        var origin = request.Headers.Origin.ToString();
        return origin.Length == 0
            || (Uri.TryCreate(origin, UriKind.Absolute, out var uri) && string.Equals(uri.Authority, request.Host.Value, StringComparison.OrdinalIgnoreCase));
    }
}
