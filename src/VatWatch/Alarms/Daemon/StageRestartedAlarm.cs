using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>stage-restarted</c>: a part of the program failed and was started again, or all of it stood still for a while.</summary>
internal static class StageRestartedAlarm
{
    public static AlarmKind Kind { get; } = new("stage-restarted", AlarmRuleSettings.Of(AlarmPriority.High, "0:00:00", "0:05:00", "1:00:00"))
    {
        Rationale = new(
            "A part of the program failed and was started again, or all of it stood still: it was halted, or the computer slept.",
            "Some readings may be missing; a part that fails again and again stops the watch.",
            "Look at the vat, then at the log. Do not leave a heating vat alone until the cause is known.",
            "within the hour"),
    };

    /// <summary>A part failed and runs again; <paramref name="fault"/> is a clause.</summary>
    public static DaemonSignal Restarted(string stage, string fault) => new(new(Kind.Word), true, $"Part '{stage}' of VatWatch failed and was started again: {fault}.");

    /// <summary>Nothing was read or judged for <paramref name="time"/>.</summary>
    public static DaemonSignal StoodStill(TimeSpan time) =>
        new(new(Kind.Word), true, $"VatWatch stood still for {DisplayUnits.Duration(time)} and watched nothing meanwhile: it was halted, or the computer slept.");

    /// <summary>No part has failed for a while.</summary>
    public static DaemonSignal Well(TimeSpan time) => new(new(Kind.Word), false, $"Every part of VatWatch has run for {DisplayUnits.Duration(time)} without a restart.");
}
