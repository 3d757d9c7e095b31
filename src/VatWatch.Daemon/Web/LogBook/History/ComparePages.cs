using VatWatch.Charts;
using VatWatch.Charts.Compare;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.LogBook.History;

/// <summary>
/// Two to four sessions laid over each other, as a page and as files: <c>/sessions/compare?session=VAT/ID&amp;session=VAT/ID</c> and
/// <c>/sessions/compare.{html|pdf|png|svg}</c>.
/// </summary>
internal static class ComparePages
{
    /// <summary>Name of the field that chooses a session.</summary>
    public const string Field = "session";

    public static void Map(IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/sessions/compare", PageAsync);
        pages.MapGet("/sessions/compare.{ending}", FileAsync);
    }

    private static async Task PageAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] DrawnFiles files, [Service] SiteFacts site)
    {
        var wanted = Wanted(context);
        if (wanted.Length < 2 || wanted.Length > SessionComparison.Most)
        {
            await pages.SendMessageAsync(
                context,
                StatusCodes.Status400BadRequest,
                "Choose two to four sessions",
                $"{(wanted.Length == 1 ? "1 session was" : $"{wanted.Length} sessions were")} chosen; wanted 2 to {SessionComparison.Most}. The page Sessions has a box to tick beside each.");
            return;
        }

        var (ok, compared) = await files.ReadAsync(reader => Records(reader, wanted, feed, site), context.RequestAborted);
        if (!ok)
        {
            await SessionPages.UnreadAsync(context, pages);
        }
        else if (compared is null)
        {
            await SessionPages.NoneAsync(context, pages);
        }
        else
        {
            await pages.ShowAsync<ComparePage>(
                context,
                ("Sessions", compared.Select(one => (one.Session!, one.Vat.Name)).ToList()),
                ("Differences", new SessionComparison(compared).Differences),
                ("Query", string.Join('&', wanted.Select(one => $"{Field}={Uri.EscapeDataString(one)}"))));
        }
    }

    private static Task<IResult> FileAsync(string ending, HttpContext context, [Service] ILiveFeed feed, [Service] DrawnFiles files, [Service] SiteFacts site) =>
        !DrawnFiles.Endings.Contains(ending) ? Task.FromResult<IResult>(TypedResults.NotFound()) : files.AnswerAsync(context, ending, "sessions", (reader, options, stream) =>
        {
            if (Records(reader, Wanted(context), feed, site) is not { } records || records.Count < 2)
            {
                return false;
            }

            new SessionComparison(records).Chart.Write($"sessions.{ending}", options, stream);
            return true;
        });

    private static string[] Wanted(HttpContext context) => [.. context.Request.Query[Field].OfType<string>().Distinct()];

    /// <summary>Their records, oldest first; null when one of them is not there, or there are more than can be told apart.</summary>
    private static List<VatRecord>? Records(StoreReader reader, string[] wanted, ILiveFeed feed, SiteFacts site)
    {
        var records = wanted.Length > SessionComparison.Most ? [] : wanted.Select(one => Find(reader, one, feed, site)).OfType<VatRecord>().ToList();
        return records.Count == wanted.Length ? [.. records.OrderBy(record => record.Session!.Started.Utc)] : null;
    }

    private static VatRecord? Find(StoreReader reader, string name, ILiveFeed feed, SiteFacts site) =>
        name.Split('/') is [var vat, var id] && SessionId.TryParse(id, out var session)
        && feed.Find(vat)?.Definition is VatDefinition definition
            ? StoredRecord.OfSession(reader, definition, site.Units, session)
            : null;
}
