using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Web.Health;

/// <summary>What supervisors and collectors ask: alive, ready, numbers.</summary>
internal static class HealthEndpoints
{
    /// <summary>Content type of OpenMetrics 1.0 text.</summary>
    public const string MetricsType = "application/openmetrics-text; version=1.0.0; charset=utf-8";

    /// <summary>Adds the routes.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/health/live", () => TypedResults.Text("alive\n")).WithName("isAlive").WithSummary("Answers while the process runs at all.").Produces<string>(contentType: "text/plain");
        routes.MapGet("/health/ready", ReadyAsync).WithName("isReady").WithSummary("200 when every stage does its job, else 503.").Produces<ReadyReply>().Produces<ReadyReply>(503);
        routes.MapGet("/metrics", Metrics).WithName("getMetrics").WithSummary("OpenMetrics text.").Produces<string>(contentType: MetricsType);
    }

    private static async Task<IResult> ReadyAsync(HttpContext context, [Service] IReadiness readiness, [Service] PasswordGate gate)
    {
        var stages = readiness.Stages;
        var ready = stages.All(stage => stage.Ok);
        var reply = new ReadyReply(ready, await gate.HasSessionAsync(context) ? stages : []);
        return TypedResults.Json(reply, ApiJson.Default.ReadyReply, statusCode: ready ? 200 : 503);
    }

    private static ContentHttpResult Metrics([Service] IEnumerable<IMetricSource> sources) =>
        TypedResults.Text(OpenMetricsText.Write(sources.SelectMany(source => source.Collect())), MetricsType, Encoding.UTF8);
}

/// <summary>Answer of <c>/health/ready</c>.</summary>
/// <param name="Ready">Whether every stage does its job.</param>
/// <param name="Stages">Every stage; empty for who has not given the password.</param>
internal sealed record ReadyReply(bool Ready, IReadOnlyList<StageReadiness> Stages);
