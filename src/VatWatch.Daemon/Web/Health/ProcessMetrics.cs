using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Web.Health;

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
        yield return MetricFamily.Counter("vatwatch_connections_refused", "", "Connections refused because every place for their address was taken.", places.Refused);
    }
}
