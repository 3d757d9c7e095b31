using VatWatch.Daemon.Web.Health;

namespace VatWatch.Daemon.Wiring;

/// <summary>What the console did not take, for <c>/metrics</c>.</summary>
internal sealed class LogMetrics(BackgroundSink console) : IMetricSource
{
    public IEnumerable<MetricFamily> Collect()
    {
        yield return MetricFamily.Counter("vatwatch_log_lines_dropped", "", "Lines that the console did not take in time.", console.Dropped);
    }
}
