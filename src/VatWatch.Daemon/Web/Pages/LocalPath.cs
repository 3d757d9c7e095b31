namespace VatWatch.Daemon.Web.Pages;

/// <summary>Where a form may send the browser afterwards: pages of ours only, never another site.</summary>
internal static class LocalPath
{
    /// <summary>The path when it is one of this site, else "/". Kept to characters that can neither leave the site nor break a header.</summary>
    public static string Of(string? wanted) =>
        wanted is ['/', ..] && !wanted.StartsWith("//", StringComparison.Ordinal) && wanted.Length <= 300 && wanted.All(IsPlain) ? wanted : "/";

    private static bool IsPlain(char one) => char.IsAsciiLetterOrDigit(one) || one is '/' or '-' or '_' or '.' or '?' or '=' or '&' or '%' or ':';
}
