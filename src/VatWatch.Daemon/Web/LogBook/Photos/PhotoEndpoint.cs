using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.LogBook.Photos;

/// <summary>Shows a picture of the log book back: <c>/vats/{vat}/entries/{entry}/photo</c>. It is never a page, whatever it holds.</summary>
internal static class PhotoEndpoint
{
    /// <summary>Lets nothing in a picture run or load.</summary>
    public const string Policy = "default-src 'none'; sandbox; frame-ancestors 'none'";

    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/vats/{vat}/entries/{entry:long}/photo", ShowAsync).ExcludeFromDescription();

    /// <summary>Address of the picture of an entry.</summary>
    public static string Href(SessionEntry entry) => $"/vats/{Uri.EscapeDataString(entry.Vat.Value)}/entries/{entry.Id}/photo";

    private static async Task<IResult> ShowAsync(string vat, long entry, HttpContext context, [Service] StoreQueries store)
    {
        var (ok, photo) = await store.TryReadAsync(reader => EntryTable.PhotoOf(reader, new VatId(vat), entry), context.RequestAborted);
        if (photo is not { } found)
        {
            return TypedResults.StatusCode(ok ? StatusCodes.Status404NotFound : StatusCodes.Status503ServiceUnavailable);
        }

        context.Response.Headers.ContentSecurityPolicy = Policy;
        context.Response.Headers.CacheControl = "private, max-age=86400";
        return TypedResults.Bytes(found.Bytes, found.MediaType);
    }
}
