namespace VatWatch.Daemon.Web.Pages;

/// <summary>Remembers in the browser the name that a person gave, so that it is asked for once.</summary>
internal static class NameCookie
{
    public const string Name = "vatwatch.name";

    /// <summary>Keeps a name for a year.</summary>
    public static void Remember(string by, HttpContext context) => context.Response.Cookies.Append(Name, by, new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        MaxAge = TimeSpan.FromDays(365),
    });
}
