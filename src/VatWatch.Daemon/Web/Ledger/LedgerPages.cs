using VatWatch.Daemon.Web.LogBook.History;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Ledger;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Ledger;

/// <summary>What is in a vat, <c>/vats/{vat}/ledger</c>, and why it dyes weakly, <c>/vats/{vat}/revive</c>.</summary>
internal static class LedgerPages
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/vats/{vat}/ledger", (string vat, HttpContext context, [Service] PageMaker maker, [Service] ILiveFeed feed, [Service] StoreQueries store, [Service] SiteFacts site) =>
            ShowAsync<LedgerPage, IReadOnlyList<VatBalance>>(vat, context, maker, feed, store, site, "History", (facts, _) => VatLedger.History(facts, feed.Clock.Now().Utc)));
        pages.MapGet("/vats/{vat}/revive", (string vat, HttpContext context, [Service] PageMaker maker, [Service] ILiveFeed feed, [Service] StoreQueries store, [Service] SiteFacts site) =>
            ShowAsync<RevivePage, Revival>(vat, context, maker, feed, store, site, "Revival", (facts, reader) => Revival.Of(StoredWeakVat.Read(reader, facts, feed.Clock.Now().Utc))));
    }

    private static async Task ShowAsync<TPage, T>(
        string vat, HttpContext context, PageMaker pages, ILiveFeed feed, StoreQueries store, SiteFacts site, string name, Func<LedgerFacts, StoreReader, T> work)
        where TPage : Microsoft.AspNetCore.Components.IComponent
        where T : class
    {
        if (feed.Find(vat)?.Definition is not { } definition)
        {
            await pages.SendNoVatAsync(context);
            return;
        }

        if (await store.TryReadAsync(reader => work(StoredLedger.Read(reader, definition, site.Units), reader), context.RequestAborted) is not (true, { } found))
        {
            await SessionPages.UnreadAsync(context, pages);
            return;
        }

        await pages.ShowAsync<TPage>(context, ("Vat", definition), (name, found));
    }
}
