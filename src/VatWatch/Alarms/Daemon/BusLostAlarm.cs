namespace VatWatch.Alarms.Daemon;

/// <summary><c>bus-lost.BUS</c>: a bus is away, and every probe on it with it.</summary>
internal static class BusLostAlarm
{
    public static AlarmKind Kind { get; } = new("bus-lost", AlarmRuleSettings.Of(AlarmPriority.High, "0:00:10", "0:01:00", "0:10:00"))
    {
        Rationale = new(
            "The cable, adapter or instrument of a bus was unplugged or lost its power.",
            "None of the probes on it is watched.",
            "Switch the heater off at the plug if its temperature is among them, then look at the cable and the instrument's power.",
            "10 min while a heater may be on"),
    };

    /// <summary>What is known of a bus; <paramref name="reason"/> is null while it is there.</summary>
    public static DaemonSignal Signal(string bus, string? reason) => reason is not null
        ? new(new(Kind.Word, bus), true, $"Bus {bus} is lost, none of its probes is watched: {reason}.")
        : new(new(Kind.Word, bus), false, $"Bus {bus} is back.");
}
