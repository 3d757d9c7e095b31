using VatWatch.Daemon.Web.Health;
using VatWatch.Notifications;
using VatWatch.Pipeline.Assembly;
using VatWatch.Readings;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>Counters of the line from probe to phone, for <c>/metrics</c>.</summary>
internal sealed class LineMetrics(WatchPipeline line, WatchStore store) : IMetricSource
{
    public IEnumerable<MetricFamily> Collect()
    {
        var (health, broker) = (store.Health, line.Link.Counters);
        yield return MetricFamily.Counter("vatwatch_readings_dropped", "", "Readings lost before they were judged.", line.ReadingsDropped);
        yield return MetricFamily.Counter("vatwatch_alarm_changes_lost", "", "Alarm changes or notifications lost because the disk was away too long.", line.AlarmsLost);
        yield return MetricFamily.Gauge("vatwatch_store_ok", "", "1 while commits succeed.", health.Ok ? 1 : 0);
        yield return MetricFamily.Gauge("vatwatch_store_buffered_measurements", "", "Measurements in memory that are not on disk yet.", health.Buffered);
        yield return MetricFamily.Counter("vatwatch_store_measurements_dropped", "", "Measurements lost because the buffer was full.", health.Dropped);
        yield return MetricFamily.Gauge("vatwatch_broker_connected", "", "1 while the broker is there.", line.Link.State.Connected ? 1 : 0);
        yield return MetricFamily.Counter("vatwatch_notifications_delivered", "", "Sentences that the broker has taken.", line.Contacts.Where(one => one.Way == "mqtt").Sum(one => one.Health.Delivered));
        yield return new MetricFamily("vatwatch_probe_samples", MetricType.Counter, "", "Samples of each probe by their quality.", [.. line.Counters.Probes.SelectMany(Samples)]);
        yield return new MetricFamily("vatwatch_probe_beats_skipped", MetricType.Counter, "", "Beats of each probe that were left out, because its bus or the computer was late.",
            [.. line.Counters.Probes.Select(probe => new MetricSample(probe.Value.Skipped, ("probe", probe.Key.Value)))]);
        yield return new MetricFamily("vatwatch_bus_losses", MetricType.Counter, "", "Times that a bus was lost.",
            [.. line.Counters.Buses.Select(bus => new MetricSample(bus.Value.Losses, ("bus", bus.Key.Value)))]);
        yield return new MetricFamily("vatwatch_bus_failed_opens", MetricType.Counter, "", "Times that a bus could not be opened.",
            [.. line.Counters.Buses.Select(bus => new MetricSample(bus.Value.FailedOpens, ("bus", bus.Key.Value)))]);
        yield return PerContact("vatwatch_contact_delivered", "Sentences that a contact's far side (broker, mail server, webhook) has taken.", health => health.Delivered);
        yield return PerContact("vatwatch_contact_failed", "Tries to reach a contact that came to nothing.", health => health.Failed);
        yield return PerContact("vatwatch_contact_set_aside", "Sentences that a contact's far side refused for good.", health => health.DeadLettered);
        yield return new MetricFamily("vatwatch_contact_held_back", MetricType.Counter, "", "Sentences held back by the flood limit of a contact.",
            [.. line.HeldBack.Select(held => new MetricSample(held.HeldBack, ("contact", held.Contact)))]);
        yield return MetricFamily.Counter("vatwatch_topic_measurements_dropped", "", "Measurements not published because the broker was slow or away.", broker.MeasurementsDropped.Value);
    }

    private MetricFamily PerContact(string name, string says, Func<ContactHealth, long> count) => new(
        name, MetricType.Counter, "", says, [.. line.Contacts.Select(one => new MetricSample(count(one.Health), ("contact", one.Contact), ("way", one.Way)))]);

    private static IEnumerable<MetricSample> Samples(KeyValuePair<ProbeId, ProbeCounters.ProbeCounts> probe)
    {
        var (good, suspect, missing, fault, _) = probe.Value;
        return new[] { ("good", good), ("suspect", suspect), ("missing", missing), ("fault", fault) }
            .Select(count => new MetricSample(count.Item2, ("probe", probe.Key.Value), ("quality", count.Item1)));
    }
}
