namespace VatWatch.Daemon.Web.Security;

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
