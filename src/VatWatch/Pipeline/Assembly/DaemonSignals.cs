using VatWatch.Alarms;
using VatWatch.Alarms.Daemon;
using VatWatch.Notifications;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Peers;
using VatWatch.Pipeline.Configuration;
using VatWatch.Readings;

namespace VatWatch.Pipeline.Assembly;

/// <summary>What the parts of the daemon say about themselves, for <see cref="DaemonWatcher"/>.</summary>
internal static class DaemonSignals
{
    public static IEnumerable<DaemonSignal> Of(MqttLink link)
    {
        var state = link.State;
        yield return BrokerLostAlarm.Signal(state.Connected ? null : state.Reason);
    }

    public static IEnumerable<DaemonSignal> Of(IReadOnlyList<ContactSender> senders) =>
        senders.Select(sender => ContactUnreachableAlarm.Signal(sender.Contact, sender.Health.Trouble));

    public static IEnumerable<DaemonSignal> Of(IReadOnlyList<PeerMonitor> watches) => watches.Select(watch =>
    {
        var (silent, sentence) = watch.Verdict;
        return WatchSilentAlarm.Signal(watch.Site, silent, sentence);
    });

    public static IEnumerable<DaemonSignal> Of(WatchClock clock)
    {
        yield return ClockUntrustedAlarm.Signal(clock.Trusted);
    }

    /// <summary>Buses that were ever away, with what is on them.</summary>
    public static IEnumerable<DaemonSignal> Of(ProbeCounters counters, IReadOnlyList<VatPlan> vats) => counters.Away.Select(away =>
    {
        var probes = vats.SelectMany(vat => vat.Definition.Probes.Where(probe => probe.Bus == away.Key).Select(probe => (vat, probe))).ToList();
        return BusLostAlarm.Signal(
            away.Key,
            away.Value,
            [.. probes.Select(one => $"{one.probe.Id} of {one.vat.Definition.Name}")],
            probes.Count == 0 ? AlarmPriority.Low : probes.Max(one => one.vat.Alarms.OfGuard(one.probe.Quantity)));
    });
}
