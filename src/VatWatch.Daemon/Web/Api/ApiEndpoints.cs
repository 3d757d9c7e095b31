using VatWatch.Daemon.Web.Drawing;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Api;

/// <summary>The HTTP interface under <c>/api</c>.</summary>
internal static class ApiEndpoints
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        var api = routes.MapGroup("/api");
        api.MapGet("/vats", Vats).WithName("listVats").WithSummary("Every vat: condition, newest measurements, alarms.");
        api.MapGet("/vats/{vat}", Vat).WithName("getVat").WithSummary("One vat.")
            .Produces<VatReply>().ProducesProblem(404);
        AlarmEndpoints.Map(api);
        ContactEndpoints.Map(api);
        ChartApi.Map(api);
        api.MapGet("/events", (HttpContext context, [Service] EventStream stream) => stream.FollowAsync(context))
            .WithName("followEvents").WithSummary("Server-sent events: measurement, condition, alarm, session, lagged.").Produces<string>(contentType: "text/event-stream");
        api.MapGet("/openapi.json", ([Service] OpenApiPage page) => page.AnswerAsync()).ExcludeFromDescription();
    }

    private static IReadOnlyList<VatReply> Vats([Service] ILiveFeed feed, [Service] SiteFacts site)
    {
        var now = feed.Clock.Now();
        return [.. feed.Vats.Select(live => VatReply.Of(live, site, now))];
    }

    private static IResult Vat(string vat, [Service] ILiveFeed feed, [Service] SiteFacts site) =>
        feed.Find(vat) is { } found
            ? TypedResults.Json(VatReply.Of(found, site, feed.Clock.Now()), ApiJson.Default.VatReply)
            : Problems.NoVat();
}
