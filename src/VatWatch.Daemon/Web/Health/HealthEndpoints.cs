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

/// <summary>Says how the stages of the daemon are doing. Reads never wait. Thread safe.</summary>
internal interface IReadiness
{
    /// <summary>Every stage; the daemon is ready when all are.</summary>
    IReadOnlyList<StageReadiness> Stages { get; }
}

/// <summary>How one stage is doing.</summary>
/// <param name="Stage">Its name, for example "store".</param>
/// <param name="Ok">Whether it does its job.</param>
/// <param name="Sentence">In words.</param>
internal sealed record StageReadiness(string Stage, bool Ok, string Sentence);

/// <summary>The process and its web side as numbers.</summary>
internal sealed class ProcessMetrics(EventStream events, LoginThrottle throttle, ConnectionPlaces places) : IMetricSource
{
    public IEnumerable<MetricFamily> Collect()
    {
        yield return MetricFamily.Gauge("process_resident_memory_bytes", "bytes", "Memory in use.", Environment.WorkingSet);
        yield return MetricFamily.Counter("process_cpu_seconds", "seconds", "Processor time used.", Environment.CpuUsage.TotalTime.TotalSeconds);
        yield return MetricFamily.Gauge("vatwatch_heap_bytes", "bytes", "Managed memory in use.", GC.GetTotalMemory(false));
        yield return MetricFamily.Gauge("vatwatch_event_followers", "", "Followers of the event stream.", events.Followers);
        yield return MetricFamily.Counter("vatwatch_event_lost", "", "Events lost by slow followers.", events.Lost);
        yield return MetricFamily.Counter("vatwatch_login_refused", "", "Passwords not looked at because others of the same address or too many were waiting.", throttle.Refused);
        yield return MetricFamily.Counter("vatwatch_login_delayed", "", "Passwords that had to wait after many wrong ones.", throttle.Delayed);
        yield return MetricFamily.Counter("vatwatch_connections_refused", "", "Connections refused, or ended while quiet, because every place for their address was taken.", places.Refused);
    }
}
