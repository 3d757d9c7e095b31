using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>The dosing page: <c>/dosing?vat=madder-lane&amp;what=alkali</c>. Asking changes nothing; what is logged goes through the log book's own form.</summary>
internal static class DosingPages
{
    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/dosing", ShowAsync).ExcludeFromDescription();

    private static async Task ShowAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store, [Service] SiteFacts site)
    {
        var vats = feed.Vats;
        var query = context.Request.Query;
        if ((query.ContainsKey("vat") ? vats.FirstOrDefault(live => live.Definition.Id.Value == query["vat"]) : vats is [var first, ..] ? first : null) is not { } live)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such vat", "The configuration has no vat of that name.");
            return;
        }

        var now = feed.Clock.Now();
        var (ok, entries) = await store.TryReadAsync(
            reader => EntryTable.Between(reader, live.Definition.Id, now.Utc - SodaAshLog.Reach, now.Utc.AddMinutes(1)), context.RequestAborted);
        await pages.SendAsync<DosingPage>(
            context,
            StatusCodes.Status200OK,
            ("Page", pages.FactsFor(context)),
            ("Vats", vats.Select(one => one.Definition).ToList()),
            ("View", DosingForm.Fill(live, query, entries ?? [], now, site.Units)),
            ("IsLogRead", ok));
    }
}
