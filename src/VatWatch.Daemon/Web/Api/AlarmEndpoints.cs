using System.Globalization;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Figures;
using VatWatch.Alarms.Journal;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Daemon.Web.Alarms;
using VatWatch.Daemon.Web.Security;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Alarms under <c>/api</c>: the list, what may be done with them, and their figures.</summary>
internal static class AlarmEndpoints
{
    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/alarms", Alarms).WithName("listAlarms").WithSummary("Every alarm that is not in normal, of every vat and of the daemon; weightiest first.");
        api.MapGet("/alarms/figures", FiguresAsync).WithName("getAlarmFigures").WithSummary("How the alarms did in each of the last weeks, the newest first; ?weeks=1 to 26, default 4.")
            .Produces<IReadOnlyList<AlarmWeekReply>>().ProducesProblem(400).ProducesProblem(503);
        foreach (var (kind, name, words) in Acts)
        {
            Describe(api.MapPost($"/vats/{{vat}}/alarms/{{alarm}}/{kind.Word()}", (string vat, string alarm, HttpContext context, [Service] AlarmService alarms) =>
                CarryOutAsync(kind, vat, alarm, context, alarms)), name, words);
        }

        Describe(api.MapPost("/vats/{vat}/note", (string vat, HttpContext context, [Service] AlarmService alarms) =>
            CarryOutAsync(AlarmActKind.Note, vat, null, context, alarms)), "noteVat", "Writes a note about the vat into the journal.");
    }

    private static readonly (AlarmActKind Kind, string Name, string Words)[] Acts =
    [
        (AlarmActKind.Acknowledge, "acknowledgeAlarm", "Says that somebody has seen the alarm."),
        (AlarmActKind.Shelve, "shelveAlarm", "Sets the alarm aside for a time."),
        (AlarmActKind.Unshelve, "unshelveAlarm", "Takes the alarm off the shelf before its time."),
        (AlarmActKind.TakeOutOfService, "takeAlarmOutOfService", "Takes the alarm out of service until somebody returns it."),
        (AlarmActKind.ReturnToService, "returnAlarmToService", "Puts the alarm back into service."),
        (AlarmActKind.Reset, "resetAlarm", "Ends a latched alarm that was acknowledged."),
        (AlarmActKind.Note, "noteAlarm", "Writes a note beside the alarm into the journal."),
    ];

    private static void Describe(RouteHandlerBuilder route, string name, string words) => route.WithName(name).WithSummary($"{words} Answers 200 when it is on disk, 202 when the disk does not take it and it is held in memory.")
        .Accepts<AlarmActRequest>("application/json").Produces<AlarmActReply>().Produces<AlarmActReply>(StatusCodes.Status202Accepted)
        .ProducesProblem(400).ProducesProblem(403).ProducesProblem(409).ProducesProblem(415).ProducesProblem(503);

    private static IReadOnlyList<AlarmDocument> Alarms([Service] ILiveFeed feed, [Service] SiteFacts site) =>
        [.. AlarmList.All(feed).Select(alarm => AlarmDocument.Of(alarm, site.Units))];

    private static async Task<IResult> FiguresAsync(HttpContext context, [Service] IAlarmHistory history, [Service] ILiveFeed feed)
    {
        var asked = context.Request.Query["weeks"].ToString();
        if (!int.TryParse(asked.Length == 0 ? "4" : asked, NumberStyles.None, CultureInfo.InvariantCulture, out var weeks) || weeks is < 1 or > AlarmWeeks.Most)
        {
            return Problems.Answer(400, $"The number of weeks is '{FreeText.Shown(asked)}'; wanted 1 to {AlarmWeeks.Most}.");
        }

        try
        {
            var figures = await history.WeeksAsync(feed.Clock.Now().Utc, weeks, context.RequestAborted);
            return TypedResults.Json<IReadOnlyList<AlarmWeekReply>>([.. figures.Select(AlarmWeekReply.Of)], ApiJson.Default.IReadOnlyListAlarmWeekReply);
        }
        catch (StoreUnavailableException)
        {
            return Problems.Answer(503, "The journal cannot be read just now; try again in a while.");
        }
    }

    private static async Task<IResult> CarryOutAsync(AlarmActKind kind, string vat, string? alarm, HttpContext context, AlarmService alarms)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.AlarmActRequest, Example(kind));
        if (body is null)
        {
            return problem!;
        }

        var request = new AlarmRequest(kind, vat, alarm, body.By, Visitor.Of(context) is { IsLocal: true } ? "verb" : "api") { Minutes = body.Minutes, Text = kind == AlarmActKind.Note ? body.Text : body.Reason };
        var outcome = await alarms.CarryOutAsync(request, context.RequestAborted);
        return outcome.Kind switch
        {
            AlarmOutcomeKind.OnDisk or AlarmOutcomeKind.InMemory => TypedResults.Json(
                new AlarmActReply(vat, alarm, kind.Word(), AlarmService.TidyName(body.By) ?? "", outcome.Sentence, outcome.Kind == AlarmOutcomeKind.OnDisk),
                ApiJson.Default.AlarmActReply,
                statusCode: outcome.Kind == AlarmOutcomeKind.OnDisk ? StatusCodes.Status200OK : StatusCodes.Status202Accepted),
            AlarmOutcomeKind.Refused => Problems.Answer(400, $"{outcome.Sentence} An example: {Example(kind)}."),
            AlarmOutcomeKind.NothingToDo => Problems.Answer(409, outcome.Sentence),
            _ => Problems.Answer(503, outcome.Sentence),
        };
    }

    private static string Example(AlarmActKind kind) => kind switch
    {
        AlarmActKind.Shelve => """{"by":"Ada","minutes":20,"reason":"probe out for cleaning"}""",
        AlarmActKind.TakeOutOfService => """{"by":"Ada","reason":"probe sent for repair"}""",
        AlarmActKind.Note => """{"by":"Ada","text":"the lid was closed"}""",
        _ => """{"by":"Ada"}""",
    };
}

/// <summary>Body of an act on an alarm.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="Minutes">How long to shelve, 1 to 1440; the alarm's settings may cut it down. For shelving only.</param>
/// <param name="Reason">Why it is shelved or taken out of service, 1 to 200 characters. For these two only.</param>
/// <param name="Text">The note, 1 to 200 characters. For notes only.</param>
internal sealed record AlarmActRequest(string? By, double? Minutes = null, string? Reason = null, string? Text = null);

/// <summary>The act is done.</summary>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Alarm">The alarm; null for a note about the vat.</param>
/// <param name="Act">What was done.</param>
/// <param name="By">Who did it.</param>
/// <param name="Sentence">What came of it.</param>
/// <param name="OnDisk">False when the disk does not take it: it is held in memory until the disk does.</param>
internal sealed record AlarmActReply(string Vat, string? Alarm, string Act, string By, string Sentence, bool OnDisk);
