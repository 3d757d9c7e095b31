using System.Globalization;
using VatWatch.Daemon.Web.LogBook;
using VatWatch.Pipeline;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.Api;

/// <summary>The log book for programs: sessions and entries under <c>/api/vats/{vat}</c>.</summary>
internal static class SessionEndpoints
{
    private const int Usual = 30;
    private const int Most = 200;
    private static readonly TimeSpan UsualSpan = TimeSpan.FromHours(24);

    public static void Map(IEndpointRouteBuilder routes)
    {
        var vat = routes.MapGroup("/api/vats/{vat}");
        vat.MapGet("/sessions", ListAsync).WithName("listSessions").WithSummary("Sessions of the vat, newest first; ?before= an ISO time pages back, ?count= 1 to 200 (30).")
            .Produces<IReadOnlyList<SessionReply>>().ProducesProblem(404).ProducesProblem(503);
        vat.MapGet("/sessions/open", OpenAsync).WithName("getOpenSession").WithSummary("The session that goes on; 404 when none does.")
            .Produces<SessionReply>().ProducesProblem(404).ProducesProblem(503);
        vat.MapGet("/sessions/{id}", OneAsync).WithName("getSession").WithSummary("One session with its entries.")
            .Produces<SessionReply>().ProducesProblem(404).ProducesProblem(503);
        vat.MapGet("/entries", EntriesAsync).WithName("listEntries").WithSummary("Entries in and out of sessions, oldest first; ?from= and ?to= ISO times, the last 24 h without.")
            .Produces<IReadOnlyList<EntryReply>>().ProducesProblem(400).ProducesProblem(404).ProducesProblem(503);
        vat.MapGet("/dip-outlook", OutlookAsync).WithName("getDipOutlook").WithSummary("What a dip of ?yarnGrams= of dry yarn will do to the vat; without it the yarn of the open session.")
            .Produces<DipOutlookReply>().ProducesProblem(400).ProducesProblem(404).ProducesProblem(409).ProducesProblem(503);
        SessionChanges.Map(vat);
    }

    private static async Task<IResult> ListAsync(string vat, HttpContext context, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        if (feed.Find(vat) is null)
        {
            return Problems.NoVat();
        }

        var before = ApiTime.Of(context.Request.Query["before"]);
        var count = int.TryParse(context.Request.Query["count"], out var wanted) ? Math.Clamp(wanted, 1, Most) : Usual;
        var (_, sheets) = await store.TryReadAsync<List<SessionSheet>>(
            reader => [.. SessionTable.Newest(reader, new VatId(vat), count, null, before).Select(session => SessionSheet.Of(reader, session))], context.RequestAborted);
        return sheets is null ? Unread() : TypedResults.Json([.. sheets.Select(SessionReply.Of)], ApiJson.Default.IReadOnlyListSessionReply);
    }

    private static Task<IResult> OpenAsync(string vat, HttpContext context, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        var now = feed.Clock.Now().Utc;
        return AnswerAsync(store, context, "No session is open.", reader => SessionSheet.Open(reader, new VatId(vat), now));
    }

    private static async Task<IResult> OneAsync(string vat, string id, HttpContext context, [Service] StoreQueries store) =>
        SessionId.TryParse(id, out var session)
            ? await AnswerAsync(store, context, "There is no such session; /api/vats/{vat}/sessions lists them.", reader => SessionSheet.Find(reader, new VatId(vat), session))
            : Problems.Answer(404, "The name of a session is a date such as 2026-03-01, with a number from the second of a day on.");

    private static async Task<IResult> EntriesAsync(string vat, HttpContext context, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        if (feed.Find(vat) is null)
        {
            return Problems.NoVat();
        }

        var query = context.Request.Query;
        var to = query.ContainsKey("to") ? ApiTime.Of(query["to"]) : feed.Clock.Now().Utc.AddSeconds(1);
        var from = query.ContainsKey("from") ? ApiTime.Of(query["from"]) : to - UsualSpan;
        if (to is not { } end || from is not { } start)
        {
            return Problems.Answer(400, "from or to is no time; wanted an ISO 8601 time such as 2026-03-01T08:00:00Z.");
        }

        var (_, entries) = await store.TryReadAsync(reader => EntryTable.Between(reader, new VatId(vat), start, end), context.RequestAborted);
        return entries is null ? Unread() : TypedResults.Json([.. entries.Select(EntryReply.Of)], ApiJson.Default.IReadOnlyListEntryReply);
    }

    private static async Task<IResult> OutlookAsync(string vat, HttpContext context, [Service] ILiveFeed feed, [Service] StoreQueries store, [Service] SiteFacts site)
    {
        if (feed.Find(vat) is not { } found)
        {
            return Problems.NoVat();
        }

        var now = feed.Clock.Now().Utc;
        var (ok, sheet) = await store.TryReadAsync(reader => SessionSheet.Open(reader, new VatId(vat), now), context.RequestAborted);
        if (!ok)
        {
            return Unread();
        }

        var asked = context.Request.Query.ContainsKey("yarnGrams");
        var grams = !asked ? sheet?.Session.Details.YarnGrams
            : double.TryParse(context.Request.Query["yarnGrams"], System.Globalization.CultureInfo.InvariantCulture, out var number) ? number : null;
        if (grams is not (> 0 and <= SessionDetails.MostYarnGrams))
        {
            return Problems.Answer(400, $"No usable yarnGrams was given and no open session names a weight; wanted more than 0 and at most {SessionDetails.MostYarnGrams:0} g.");
        }

        return DipForecasts.For(found, grams.Value, sheet?.Tally, site.Units, out var whyNot) is { } outlook
            ? TypedResults.Json(DipOutlookReply.Of(grams.Value, outlook), ApiJson.Default.DipOutlookReply)
            : Problems.Answer(409, whyNot);
    }

    internal static IResult Unread() => Problems.Answer(503, "The log book could not be read just now; try again in a while.");

    private static async Task<IResult> AnswerAsync(StoreQueries store, HttpContext context, string none, Func<Store.StoreReader, SessionSheet?> read)
    {
        var (ok, sheet) = await store.TryReadAsync(read, context.RequestAborted);
        return !ok ? Unread() : sheet is null ? Problems.Answer(404, none) : TypedResults.Json(SessionReply.Of(sheet), ApiJson.Default.SessionReply);
    }
}

/// <summary>Moments in addresses.</summary>
internal static class ApiTime
{
    /// <summary>An ISO 8601 time, UTC where it names no zone; null when it is none.</summary>
    public static DateTimeOffset? Of(string? text) =>
        DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment) ? moment.ToUniversalTime() : null;
}
