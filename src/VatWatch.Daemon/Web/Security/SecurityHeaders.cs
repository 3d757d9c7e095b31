namespace VatWatch.Daemon.Web.Security;

/// <summary>Response headers that keep a browser from doing with a page what the page never asks for.</summary>
internal static class SecurityHeaders
{
    /// <summary>Only our own style sheet, script, pictures and event stream; no inline code, no frames, forms only to ourselves.</summary>
    public const string PagePolicy =
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>For a drawing or report that carries its own styles, fonts and pictures and is never a page.</summary>
    public const string DrawingPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; sandbox; frame-ancestors 'none'";

    /// <summary>Sets the headers before anything else runs; what comes later may loosen them for one kind of answer.</summary>
    public static Task SetAsync(HttpContext context, RequestDelegate next)
    {
        var headers = context.Response.Headers;
        headers.ContentSecurityPolicy = PagePolicy;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=()";
        headers.CacheControl = "no-store";
        if (context.Request.IsHttps)
        {
            // RFC 6797; a year. Other names below this one may be other people's, so they are not included.
            headers.StrictTransportSecurity = "max-age=31536000";
        }

        return next(context);
    }
}
