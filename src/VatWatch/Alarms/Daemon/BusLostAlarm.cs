using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>bus-lost.BUS</c>: a bus is away. It speaks for every probe on it, with the priority of the most important one: one trouble, one alarm.</summary>
internal static class BusLostAlarm
{
    private const int ProbesNamed = 4;

    public static AlarmKind Kind { get; } = new("bus-lost", AlarmRuleSettings.Guard(null, "0:00:10", "0:01:00", "0:10:00"))
    {
        Rationale = new(
            "The cable, adapter or instrument of a bus was unplugged or lost its power.",
            "None of the probes on it is watched.",
            "Switch the heater off at the plug if its temperature is among them, then look at the cable and the instrument's power.",
            "10 min while a heater may be on"),
    };

    /// <summary>What is known of a bus.</summary>
    /// <param name="reason">Why it is away, as a clause; null while it is there.</param>
    /// <param name="probes">What is on it, for people.</param>
    /// <param name="guards">The highest priority of what they guard.</param>
    public static DaemonSignal Signal(BusId bus, string? reason, IReadOnlyList<string> probes, AlarmPriority guards) =>
        new(new(Kind.Word, bus.Value), reason is not null, reason is null ? $"Bus {bus} is back." : $"Bus {bus} is lost, nobody watches {Named(probes)}: {reason}.") { Guards = guards };

    private static string Named(IReadOnlyList<string> probes) => probes.Count switch
    {
        0 => "what is on it",
        <= ProbesNamed => string.Join(", ", probes),
        _ => $"{string.Join(", ", probes.Take(ProbesNamed))} and {probes.Count - ProbesNamed} more",
    };
}
