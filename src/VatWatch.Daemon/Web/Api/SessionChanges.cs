using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Web.LogBook.Photos;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Daemon.Web.LogBook;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.Api;

/// <summary>What programs write into the log book. Each answers when it is on disk.</summary>
internal static class SessionChanges
{
    /// <summary>What a body may tell; a picture comes by a route of its own.</summary>
    private static readonly string[] Kinds = [.. Enum.GetValues<EntryKind>().Where(one => one != EntryKind.Photo).Select(EnumWord.Word)];

    private const string SessionExample = "{\"by\":\"Ada\",\"yarnGrams\":900,\"fibre\":\"protein\",\"shade\":\"mid blue\"}";

    public static void Map(RouteGroupBuilder vat)
    {
        Described(vat.MapPost("/sessions", StartAsync).WithName("startSession").Accepts<SessionRequest>("application/json").Produces<SessionReply>(), "Begins a session.");
        Described(vat.MapPost("/sessions/end", EndAsync).WithName("endSession").Accepts<EndRequest>("application/json").Produces<SessionReply>(), "Ends the open session; the yarn must be out.");
        Described(vat.MapPut("/sessions/{id}", DescribeAsync).WithName("describeSession").Accepts<SessionRequest>("application/json").Produces<SessionReply>(), "Says yarn, fibre, shade and verdict of a session anew.");
        Described(
            vat.MapPost("/sessions/{id}/join", JoinAsync).WithName("joinSessions").Accepts<JoinRequest>("application/json").Produces<SessionReply>(),
            "Makes one session of two that follow each other, under the name of the earlier.");
        Described(
            vat.MapPost("/sessions/{id}/take-out", TakeOutAsync).WithName("takeOutSession").Accepts<WithdrawRequest>("application/json").Produces(204),
            "Takes out a session that was none: its dips are withdrawn, its other entries stand alone.");
        Described(vat.MapPost("/entries", WriteAsync).WithName("writeEntry").Accepts<EntryRequest>("application/json").Produces<EntryReply>(), "Writes an entry; the first dip begins a session.");
        Described(vat.MapPost("/entries/{entry:long}/withdraw", WithdrawAsync).WithName("withdrawEntry").Accepts<WithdrawRequest>("application/json").Produces<EntryReply>(), "Withdraws an entry that was a slip.");
        Described(
            vat.MapPost("/photos", PhotographAsync).WithName("addPhoto").Accepts<byte[]>("image/jpeg", "image/png", "image/webp").Produces<EntryReply>(),
            "Keeps a picture: the body is the file, up to 8 MB and 50 million pixels; it is drawn afresh as a JPEG. ?by= names who, ?text= says what it shows.");
    }

    private static void Described(RouteHandlerBuilder route, string summary) => route.WithSummary(summary)
        .ProducesProblem(400).ProducesProblem(403).ProducesProblem(409).ProducesProblem(413).ProducesProblem(415).ProducesProblem(503);

    private static async Task<IResult> StartAsync(string vat, HttpContext context, [Service] SessionService sessions, [Service] StoreQueries store)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.SessionRequest, SessionExample);
        return body is null ? problem!
            : AlarmService.TidyName(body.By) is not { } by ? NoName()
            : await SheetAsync(await sessions.StartAsync(new(vat), by, Details(body), context.RequestAborted), store, context);
    }

    private static async Task<IResult> EndAsync(string vat, HttpContext context, [Service] SessionService sessions, [Service] StoreQueries store)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.EndRequest, "{\"by\":\"Ada\",\"verdict\":\"good\"}");
        if (body is null || AlarmService.TidyName(body.By) is not { } by)
        {
            return problem ?? NoName();
        }

        var outcome = await sessions.EndAsync(new(vat), by, context.RequestAborted);
        return await SheetAsync(
            outcome is { Refused: null, Session: { } session } && EnumWord.Find<Verdict>(body.Verdict) is { } verdict
                ? await sessions.DescribeAsync(new(vat), session.Id, session.Details with { Verdict = verdict }, context.RequestAborted)
                : outcome,
            store,
            context);
    }

    private static async Task<IResult> DescribeAsync(string vat, string id, HttpContext context, [Service] SessionService sessions, [Service] StoreQueries store)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.SessionRequest, SessionExample);
        return body is null ? problem!
            : AlarmService.TidyName(body.By) is null ? NoName()
            : !SessionId.TryParse(id, out var session) ? Problems.Answer(409, "There is no such session.")
            : await SheetAsync(await sessions.DescribeAsync(new(vat), session, Details(body), context.RequestAborted), store, context);
    }

    private static async Task<IResult> JoinAsync(string vat, string id, HttpContext context, [Service] SessionService sessions, [Service] StoreQueries store)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.JoinRequest, "{\"by\":\"Ada\",\"session\":\"2026-03-01-2\"}");
        return body is null ? problem!
            : AlarmService.TidyName(body.By) is not { } by ? NoName()
            : !SessionId.TryParse(id, out var one) || !SessionId.TryParse(body.Session ?? "", out var other) ? Problems.Answer(409, "There is no such session.")
            : await SheetAsync(await sessions.JoinAsync(new(vat), one, other, by, context.RequestAborted), store, context);
    }

    private static async Task<IResult> TakeOutAsync(string vat, string id, HttpContext context, [Service] SessionService sessions)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.WithdrawRequest, "{\"by\":\"Ada\"}");
        if (body is null || AlarmService.TidyName(body.By) is not { } by)
        {
            return problem ?? NoName();
        }

        var outcome = SessionId.TryParse(id, out var session) ? await sessions.TakeOutAsync(new(vat), session, by, context.RequestAborted) : SessionOutcome.Not("There is no such session.");
        return outcome.Refused is { } whyNot ? Problems.Answer(409, whyNot) : TypedResults.NoContent();
    }

    private static async Task<IResult> WriteAsync(string vat, HttpContext context, [Service] SessionService sessions)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.EntryRequest, "{\"by\":\"Ada\",\"kind\":\"added\",\"material\":\"soda-ash\",\"amount\":50}");
        if (body is null || AlarmService.TidyName(body.By) is not { } by)
        {
            return problem ?? NoName();
        }

        if (Unknown(body) is { } unknown)
        {
            return Problems.Answer(400, unknown);
        }

        TimeOnly? readyAt = null;
        if (body.ReadyBy is { } ready && !EntryFields.TryTime(ready, out readyAt))
        {
            return Problems.Answer(400, $"readyBy is \"{FreeText.Shown(ready)}\"; wanted a local time of day such as \"09:00\".");
        }

        var kind = EnumWord.Find<EntryKind>(body.Kind)!.Value;
        var isAdded = kind == EntryKind.Added;
        var sign = kind == EntryKind.Sign ? EnumWord.Find<Sign>(body.Sign) : null;
        var draft = new EntryDraft(new(vat), kind, by)
        {
            Material = isAdded ? EnumWord.Find<Material>(body.Material) : null,
            Amount = isAdded || kind is EntryKind.DrawnOff or EntryKind.MadeAnew or EntryKind.Reading or EntryKind.Goods || sign?.IsTimed() == true ? body.Amount : null,
            Strength = isAdded ? body.Strength : null,
            Reading = kind == EntryKind.Reading ? EnumWord.Find<HandReading>(body.Reading) : null,
            Sign = sign,
            Goods = kind == EntryKind.Goods ? EnumWord.Find<GoodsKind>(body.Goods) : null,
            Text = EntryFields.Line(body.Text),
            ReadyAt = readyAt,
            At = body.At?.ToUniversalTime(),
            Tap = EntryFields.Line(body.Tap),
        };
        return Entry(await sessions.WriteAsync(draft, context.RequestAborted));
    }

    /// <summary>The first word of the body that is not known, as a sentence; null when all are.</summary>
    private static string? Unknown(EntryRequest body) =>
        (body.Kind is null ? "kind is missing; wanted " + string.Join(", ", Kinds) + "." : Unknown<EntryKind>("kind", body.Kind, Kinds))
        ?? Unknown<Material>("material", body.Material) ?? Unknown<HandReading>("reading", body.Reading) ?? Unknown<Sign>("sign", body.Sign) ?? Unknown<GoodsKind>("goods", body.Goods);

    private static string? Unknown<T>(string name, string? word, IEnumerable<string>? words = null)
        where T : struct, Enum
    {
        var wanted = words ?? Enum.GetValues<T>().Select(EnumWord.Word);
        return word is null || wanted.Contains(word, StringComparer.Ordinal) ? null : $"{name} is \"{FreeText.Shown(word)}\"; wanted one of {string.Join(", ", wanted)}.";
    }

    private static async Task<IResult> WithdrawAsync(string vat, long entry, HttpContext context, [Service] SessionService sessions)
    {
        var (body, problem) = await JsonBody.ReadAsync(context, ApiJson.Default.WithdrawRequest, "{\"by\":\"Ada\"}");
        return body is null ? problem!
            : AlarmService.TidyName(body.By) is not { } by ? NoName()
            : Entry(await sessions.WithdrawAsync(new(vat), entry, by, context.RequestAborted));
    }

    private static async Task<IResult> PhotographAsync(string vat, HttpContext context, [Service] SessionService sessions, [Service] PictureUpload pictures)
    {
        if (context.Request.ContentType?.StartsWith("image/", StringComparison.OrdinalIgnoreCase) != true)
        {
            return Problems.Answer(415, "The body is not declared as image/jpeg, image/png or image/webp.");
        }

        if (AlarmService.TidyName(context.Request.Query["by"]) is not { } by)
        {
            return NoName();
        }

        IResult? answer = null;
        var taken = await pictures.TakeAsync(context, async picture =>
            answer = picture.TryDraw(out var photo, out var whyNot)
                ? Entry(await sessions.WriteAsync(
                    new(new(vat), EntryKind.Photo, by) { Photo = photo, Text = EntryFields.Line(context.Request.Query["text"]) }, context.RequestAborted))
                : Problems.Answer(400, whyNot));
        return taken ? answer! : Problems.Answer(503, "Too many pictures come at once; try again in a minute.");
    }

    private static SessionDetails Details(SessionRequest body) =>
        new(body.YarnGrams, EnumWord.Find<Fibre>(body.Fibre), EntryFields.Line(body.Shade), EnumWord.Find<Verdict>(body.Verdict))
        {
            Wish = body.Wish is { IsEmpty: false } wish ? wish : null,
        };

    private static IResult NoName() => Problems.Answer(400, $"by is no usable name; wanted {FormGate.WantedName}.");

    private static IResult Entry(SessionOutcome outcome) => outcome is { Refused: null, Entry: { } entry }
        ? TypedResults.Json(EntryReply.Of(entry), ApiJson.Default.EntryReply)
        : Problems.Answer(409, outcome.Refused ?? "Nothing was written.");

    private static async Task<IResult> SheetAsync(SessionOutcome outcome, StoreQueries store, HttpContext context)
    {
        if (outcome is not { Refused: null, Session: { } session })
        {
            return Problems.Answer(409, outcome.Refused ?? "Nothing was written.");
        }

        var (_, sheet) = await store.TryReadAsync(reader => SessionSheet.Of(reader, session), context.RequestAborted);
        return TypedResults.Json(SessionReply.Of(sheet ?? new SessionSheet(session, [])), ApiJson.Default.SessionReply);
    }
}
