using VatWatch.Daemon.Web.Health;
using VatWatch.Influx;

namespace VatWatch.Daemon.Wiring;

/// <summary>Counters of the copy on a server, for <c>/metrics</c>.</summary>
internal sealed class InfluxMetrics(InfluxForwarder forwarder) : IMetricSource
{
    public IEnumerable<MetricFamily> Collect()
    {
        var state = forwarder.State;
        yield return MetricFamily.Gauge("vatwatch_server_taking", "", "1 while the database server takes points.", state.Trouble is null ? 1 : 0);
        yield return MetricFamily.Gauge("vatwatch_server_behind_measurements", "", "Measurements that are stored and not yet with the database server.", state.Waiting);
        yield return MetricFamily.Counter("vatwatch_server_points_sent", "", "Points that the database server has taken.", state.Sent);
        yield return MetricFamily.Counter("vatwatch_server_points_set_aside", "", "Points that the database server refuses for good.", state.SetAside);
    }
}
