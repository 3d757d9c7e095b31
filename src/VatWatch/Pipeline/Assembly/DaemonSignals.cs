using VatWatch.Alarms.Daemon;
using VatWatch.Notifications;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Peers;
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

    public static IEnumerable<DaemonSignal> Of(ProbeCounters counters) => counters.Away.Select(bus => BusLostAlarm.Signal(bus.Key.Value, bus.Value));
}
