namespace VatWatch.Alarms;

/// <summary>Why each alarm about the daemon exists and what to do about it.</summary>
internal static class DaemonRationales
{
    private static readonly Dictionary<string, AlarmRationale> ByKind = new(StringComparer.Ordinal)
    {
        [AlarmNames.StoreFault] = new(
            "The disk or memory card is full, worn out or read-only.",
            "Readings of this night are not kept, and alarms may be forgotten at a power cut.",
            "Alarms still work. Free space on the disk or replace the card before the next session.",
            "hours"),
        [AlarmNames.BrokerLost] = new(
            "The message broker or the network is down.",
            "Messages to phones wait here until it is back.",
            "Look at the vat's own page, and at the network and the broker. Do not rely on the phone tonight.",
            "before you rely on the phone"),
        [AlarmNames.ClockUntrusted] = new(
            "The computer has no network time and no clock of its own that was set.",
            "Times on charts may be wrong; delays and alarms are not affected.",
            "Give the computer its network or set its clock.",
            "before the next session"),
        [AlarmNames.StageRestarted] = new(
            "A part of the program failed and was started again.",
            "Some readings may be missing; a part that fails again and again stops the watch.",
            "Look at the vat, then at the log. Do not leave a heating vat alone until the cause is known.",
            "within the hour"),
        [AlarmNames.BusLost] = new(
            "The cable, adapter or instrument of a bus was unplugged or lost its power.",
            "None of the probes on it is watched.",
            "Switch the heater off at the plug if its temperature is among them, then look at the cable and the instrument's power.",
            "10 min while a heater may be on"),
        [AlarmNames.ServerBehind] = new(
            "The database server or the network is down, or the server refuses the token, the bucket or the points.",
            "The copy on the server lacks the newest readings; the store here keeps everything, and sends it when the server takes it again.",
            "Look at the server, its address and its token. Nothing about the vat depends on it.",
            "days, while the store keeps its readings"),
        [AlarmNames.ContactUnreachable] = new(
            "The mail server or the web address of a contact refuses, does not answer, or its settings are wrong.",
            "That person is not told of alarms; messages wait here, and those refused for good are set aside.",
            "Tell that person yourself tonight. Try `vatwatch notify` with the contact, and look at its settings.",
            "before you rely on that contact"),
        [AlarmNames.WatchSilent] = new(
            "The other VatWatch has lost its power, its network or its broker, or its program has stopped.",
            "Nobody watches those vats, and a heater may be on.",
            "Go and look at the vats now; switch the heater off at the plug if you cannot.",
            "10 min while a heater may be on"),
        [AlarmNames.CalibrationDue] = new(
            "The calibration is old, or its slope and offset have left the healthy range.",
            "The readings drift away from the truth unnoticed.",
            "Calibrate the probe with fresh buffers before the next session.",
            "this week"),
    };

    /// <summary>The record for one kind of alarm.</summary>
    public static AlarmRationale For(string kind) => ByKind[kind];
}
