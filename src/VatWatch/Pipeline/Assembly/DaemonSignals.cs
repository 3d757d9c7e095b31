using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Peers;
using VatWatch.Readings;

namespace VatWatch.Pipeline.Assembly;

/// <summary>What the parts of the daemon say about themselves, for <see cref="DaemonWatcher"/>.</summary>
internal static class DaemonSignals
{
    private static readonly AlarmName BrokerLost = new(AlarmNames.BrokerLost);
    private static readonly AlarmName ClockUntrusted = new(AlarmNames.ClockUntrusted);

    public static IEnumerable<DaemonSignal> Of(MqttLink link)
    {
        var state = link.State;
        yield return state.Connected
            ? new DaemonSignal(BrokerLost, false, "The message broker is there again.")
            : new DaemonSignal(BrokerLost, true, $"The message broker is not there, phones hear nothing: {state.Reason}");
    }

    public static IEnumerable<DaemonSignal> Of(IReadOnlyList<ContactSender> senders) => senders.Select(sender => new DaemonSignal(
        new AlarmName($"{AlarmNames.ContactUnreachable}.{sender.Contact}"),
        sender.Health.Trouble is not null,
        sender.Health.Trouble is { } trouble ? $"Contact {sender.Contact} is not told of alarms: {trouble}." : $"Contact {sender.Contact} is reached again."));

    public static IEnumerable<DaemonSignal> Of(IReadOnlyList<PeerMonitor> watches) => watches.Select(watch =>
    {
        var (silent, sentence) = watch.Verdict;
        return new DaemonSignal(new AlarmName($"{AlarmNames.WatchSilent}.{watch.Site}"), silent, sentence);
    });

    public static IEnumerable<DaemonSignal> Of(WatchClock clock)
    {
        yield return clock.Trusted
            ? new DaemonSignal(ClockUntrusted, false, "The clock is right again.")
            : new DaemonSignal(ClockUntrusted, true, "The computer's clock is not known to be right; times on charts may be wrong.");
    }

    public static IEnumerable<DaemonSignal> Of(ProbeCounters counters) => counters.Away.Select(bus => new DaemonSignal(
        new AlarmName($"{AlarmNames.BusLost}.{bus.Key}"),
        bus.Value is not null,
        bus.Value is { } reason ? $"Bus {bus.Key} is lost, none of its probes is watched: {reason}." : $"Bus {bus.Key} is back."));
}
