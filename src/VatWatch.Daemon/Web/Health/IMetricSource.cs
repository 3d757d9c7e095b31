namespace VatWatch.Daemon.Web.Health;

/// <summary>A part of the daemon that has numbers for <c>/metrics</c>. Reads never wait. Thread safe.</summary>
internal interface IMetricSource
{
    /// <summary>The numbers as they are now.</summary>
    IEnumerable<MetricFamily> Collect();
}
