using System.Text.Json;
using VatWatch.Daemon.Web.Security;
using VatWatch.Pipeline;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web.Api;

/// <summary>The HTTP interface under <c>/api</c>.</summary>
internal static class ApiEndpoints
{
    /// <summary>Adds the routes.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        var api = routes.MapGroup("/api");
        api.MapGet("/vats", Vats).WithSummary("Every vat: condition, newest measurements, alarms.");
        api.MapGet("/vats/{vat}", Vat).WithSummary("One vat.")
            .Produces<VatReply>().ProducesProblem(404);
        api.MapGet("/alarms", Alarms).WithSummary("Every alarm that is not in normal, of every vat and of the daemon; weightiest first.");
        api.MapPost("/vats/{vat}/alarms/{alarm}/acknowledge", AcknowledgeAsync).WithSummary("Says that somebody has seen the alarm. Answers when it is on disk.")
            .Accepts<AcknowledgeRequest>("application/json").Produces<AcknowledgeReply>()
            .ProducesProblem(400).ProducesProblem(403).ProducesProblem(409).ProducesProblem(415).ProducesProblem(503);
        api.MapGet("/events", (HttpContext context, [Service] EventStream stream) => stream.FollowAsync(context))
            .WithSummary("Server-sent events: measurement, condition, alarm, lagged.").Produces<string>(contentType: "text/event-stream");
        api.MapGet("/openapi.json", ([Service] OpenApiPage page) => page.AnswerAsync()).ExcludeFromDescription();
    }

    private static IReadOnlyList<VatReply> Vats([Service] ILiveFeed feed, [Service] SiteFacts site)
    {
        var now = feed.Clock.Now();
        return [.. feed.Vats.Select(live => VatReply.Of(live, site, now))];
    }

    private static IResult Vat(string vat, [Service] ILiveFeed feed, [Service] SiteFacts site) =>
        feed.Vats.FirstOrDefault(live => live.Definition.Id == new VatId(vat)) is { } found
            ? TypedResults.Json(VatReply.Of(found, site, feed.Clock.Now()), ApiJson.Default.VatReply)
            : Problems.Answer(404, "There is no such vat; /api/vats lists them.");

    private static IReadOnlyList<AlarmReply> Alarms([Service] ILiveFeed feed) => [.. AlarmList.All(feed).Select(AlarmReply.Of)];

    private static async Task<IResult> AcknowledgeAsync(string vat, string alarm, HttpContext context, [Service] AlarmWindow window)
    {
        if (!SameOrigin.Allows(context.Request))
        {
            return Problems.Answer(403, "The request comes from another site's page.");
        }

        if (!context.Request.HasJsonContentType())
        {
            return Problems.Answer(415, "The body is not declared as application/json.");
        }

        if (AlarmWindow.TidyName(await ReadNameAsync(context)) is not { } by)
        {
            return Problems.Answer(400, $"The body has no usable name; wanted {{\"by\":\"Ada\"}} with {AlarmWindow.WantedName}.");
        }

        return await window.AcknowledgeAsync(vat, alarm, by, "api", context.RequestAborted) switch
        {
            AcknowledgeOutcome.OnDisk => TypedResults.Json(new AcknowledgeReply(vat, alarm, by), ApiJson.Default.AcknowledgeReply),
            AcknowledgeOutcome.NothingToAcknowledge => Problems.Answer(409, "There is nothing to acknowledge: no such alarm, or it is already acknowledged or back to normal."),
            _ => Problems.Answer(503, "The store did not confirm the acknowledgement within 10 s; look at the alarm and try again."),
        };
    }

    private static async Task<string?> ReadNameAsync(HttpContext context)
    {
        try
        {
            var body = await JsonSerializer.DeserializeAsync(context.Request.Body, ApiJson.Default.AcknowledgeRequest, context.RequestAborted);
            return body?.By;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
