using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms.Rules;
using System.Globalization;
using VatWatch.Alarms;

namespace VatWatch.Tests.Alarms.Lifecycle;

/// <summary>Plays rows of "second input expected-state" on a lifecycle; a fourth word "!" wants an announcement, "-" wants no change at all.</summary>
internal static class LifecycleScript
{
    public static AlarmRuleSettings Settings(bool latch) => new()
    {
        Priority = AlarmPriority.High,
        OnDelay = TimeSpan.FromSeconds(10),
        OffDelay = TimeSpan.FromSeconds(20),
        Repeat = TimeSpan.FromSeconds(300),
        ReAlarm = TimeSpan.FromSeconds(900),
        Latch = latch,
    };

    public static void Run(AlarmLifecycle lifecycle, string name, string rows)
    {
        foreach (var row in rows.Split(" | "))
        {
            var words = row.Split(' ');
            var before = lifecycle.State;
            var transition = Give(lifecycle, words[1], TimeSpan.FromSeconds(double.Parse(words[0], CultureInfo.InvariantCulture)));
            var wanted = words.Length < 4 ? "told no" : words[3] == "!" ? "told yes" : "nothing";
            var seen = transition is not { } made ? "nothing" : made.Announce ? "told yes" : "told no";
            Assert.Equal($"{name}: {row} ({wanted})", $"{name}: {words[0]} {words[1]} {lifecycle.State.Word()}{(words.Length < 4 ? "" : " " + words[3])} ({seen})");
            Assert.True(transition is null || (transition.Value.Before == before && transition.Value.After == lifecycle.State), row);
        }
    }

    public static AlarmTransition? Give(AlarmLifecycle lifecycle, string input, TimeSpan now) => input switch
    {
        "ack" => lifecycle.Acknowledge(now),
        "reset" => lifecycle.Reset(),
        "shelve" => lifecycle.Shelve(TimeSpan.FromSeconds(600), now),
        "unshelve" => lifecycle.Unshelve(now),
        "remove" => lifecycle.TakeOutOfService(),
        "return" => lifecycle.ReturnToService(now),
        _ => lifecycle.Observe(Finding(input), now),
    };

    /// <summary>An alarm as a journal has it.</summary>
    public static AlarmStatus Kept(AlarmState state, bool stands, bool seen = false) => new()
    {
        Vat = new("madder-lane"),
        Alarm = new("overheat"),
        State = state,
        Priority = AlarmPriority.High,
        Since = default,
        Text = "Told before.",
        Action = "Look.",
        Stands = stands,
        AcknowledgedBy = seen ? "Ada" : null,
    };

    public static AlarmFinding Finding(string input) => input switch
    {
        "met" => new(AlarmSignal.Met, AlarmPriority.High),
        "worse" => new(AlarmSignal.Met, AlarmPriority.High) { Level = 1 },
        "other" => new(AlarmSignal.Met, AlarmPriority.High) { Cause = 1 },
        "critical" => new(AlarmSignal.Met, AlarmPriority.Critical),
        "clear" => new(AlarmSignal.Clear, AlarmPriority.High),
        "unknown" => new(AlarmSignal.Unknown, AlarmPriority.High),
        "off" => new(AlarmSignal.Clear, AlarmPriority.High) { Suppressed = true },
        "met-off" => new(AlarmSignal.Met, AlarmPriority.High) { Suppressed = true },
        _ => throw new ArgumentOutOfRangeException(nameof(input), input, "is not an input"),
    };
}
