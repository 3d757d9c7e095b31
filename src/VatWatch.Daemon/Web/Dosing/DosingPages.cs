using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Ledger;
using VatWatch.Pipeline;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>The dosing page: <c>/dosing?vat=madder-lane&amp;what=alkali</c>. Asking changes nothing; what is logged goes through the log book's own form.</summary>
internal static class DosingPages
{
    /// <summary>What was added is shown so far back.</summary>
    private static readonly TimeSpan Reach = TimeSpan.FromDays(60);

    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/dosing", ShowAsync).ExcludeFromDescription();

    private static async Task ShowAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store, [Service] SiteFacts site)
    {
        var vats = feed.Vats;
        var query = context.Request.Query;
        if ((query.ContainsKey("vat") ? vats.FirstOrDefault(live => live.Definition.Id.Value == query["vat"]) : vats is [var first, ..] ? first : null) is not { } live)
        {
            await pages.SendNoVatAsync(context);
            return;
        }

        var now = feed.Clock.Now();
        var isAsked = query.ContainsKey("volume");
        var (ok, read) = await store.TryReadAsync(
            reader => new LogRead(
                EntryTable.Between(reader, live.Definition.Id, now.Utc - Reach, now.Utc.AddMinutes(1)),
                isAsked ? DosedVat.Read(reader, StoredLedger.Read(reader, live.Definition, site.Units), now.Utc) : null),
            context.RequestAborted);
        await pages.ShowAsync<DosingPage>(
            context,
            ("Vats", vats.Select(one => one.Definition).ToList()),
            ("View", DosingForm.Fill(live, query, read?.Entries ?? [], read?.Dosed, now, site.Units)),
            ("IsLogRead", ok));
    }

    private sealed record LogRead(IReadOnlyList<SessionEntry> Entries, DosedVat? Dosed);
}
