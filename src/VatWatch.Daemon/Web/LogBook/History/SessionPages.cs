using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook.History;

/// <summary>The pages of sessions: all of them, and one.</summary>
internal static class SessionPages
{
    /// <summary>Field of the stretch that the chart of a session shows.</summary>
    public const string SpanField = "span";

    private const int OnOnePage = 30;
    private const int ToCompare = 60;
    private const string Unread = "The log book could not be read just now; what is written is kept. Try again in a while.";

    public static void Map(IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/sessions", ListAsync);
        pages.MapGet("/vats/{vat}/sessions/{id}", OneAsync);
    }

    private static async Task ListAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        var vats = feed.Vats.Select(live => live.Definition).ToList();
        var only = vats.Find(vat => vat.Id.Value == context.Request.Query["vat"]);
        var before = ApiTime.Of(context.Request.Query["before"]);
        var (_, sheets) = await store.TryReadAsync<IReadOnlyList<SessionSheet>>(
            reader => [.. SessionTable.Newest(reader, only?.Id, OnOnePage, null, before).Select(session => SessionSheet.Of(reader, session))], context.RequestAborted);
        await pages.ShowAsync<SessionsPage>(
            context,
            ("Vats", vats),
            ("Sheets", sheets),
            ("Only", only),
            ("IsNewest", before is null),
            ("HasMore", sheets?.Count == OnOnePage));
    }

    private static async Task OneAsync(string vat, string id, HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        if (feed.Find(vat)?.Definition is not { } definition || !SessionId.TryParse(id, out var name))
        {
            await NoneAsync(context, pages);
            return;
        }

        var (ok, found) = await store.TryReadAsync(
            reader => SessionSheet.Find(reader, definition.Id, name) is { } sheet
                ? (Sheet: sheet, Planned: PlanOutcome.Read(reader, definition, sheet.Session), Others: SessionTable.Newest(reader, null, ToCompare).Where(other => other.Vat != sheet.Session.Vat || other.Id != sheet.Session.Id).ToList())
                : default,
            context.RequestAborted);
        if (found.Sheet is null)
        {
            await (ok ? NoneAsync(context, pages) : UnreadAsync(context, pages));
            return;
        }

        await pages.ShowAsync<SessionPage>(
            context, ("Vat", definition), ("Sheet", found.Sheet), ("Others", found.Others), ("Planned", found.Planned),
            ("WithNight", context.Request.Query[SpanField] == "night"));
    }

    internal static Task NoneAsync(HttpContext context, PageMaker pages) =>
        pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such session", "The log book has no session of that name. The page Sessions lists them.");

    internal static Task UnreadAsync(HttpContext context, PageMaker pages) =>
        pages.SendMessageAsync(context, StatusCodes.Status503ServiceUnavailable, "Not readable now", Unread);
}
