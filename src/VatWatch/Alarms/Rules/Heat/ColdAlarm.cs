using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>cold</c>: the liquor is below its band in the hours in which it should be ready. Exists only when the configuration says by when; an untrusted
/// clock leaves the question open.
/// </summary>
internal static class ColdAlarm
{
    public static AlarmKind Kind { get; } = new("cold", AlarmRuleSettings.Of(AlarmPriority.Medium, "0:01:00", "0:02:00", "0:30:00", deadband: 0.5))
    {
        DeadbandIn = QuantityKind.TemperatureDifference,
        DeadbandMost = 5,
        RulesFor = context => context.Settings.ReadyBy is { } readyBy ? [Rule(context, readyBy)] : [],
    };

    private static LimitRule Rule(RuleContext context, ReadyBy readyBy) => new(context, Kind)
    {
        Rationale = new(
            "The heater started late, is weak or off, or the lid was left off.",
            "The session starts late, or starts in a vat too cold to dye well.",
            "Look at the heater's plug, its ground-fault switch and the lid. Unplug the heater before you reach into the liquor.",
            "hours"),
        Limit = context.Vat.Temperature.LowC,
        Unit = "°C",
        IsBelow = true,
        Value = condition => condition.TemperatureC,
        Holds = now => now.UtcTrusted ? readyBy.Covers(now.Utc) : null,
        IsSuppressed = condition => condition.WarmUp is { ReadyBy: { } wish } && wish > condition.Stamp.Utc,
        Words = (temperatureC, telling, _) => Tell(context.Vat, temperatureC, telling, readyBy),
    };

    private static Sentence Tell(VatDefinition vat, double? temperatureC, AlarmTelling telling, ReadyBy readyBy)
    {
        var wanted = new Sentence($"wanted {vat.Temperature.LowC:°C} by {readyBy.Time:HH:mm}");
        return (temperatureC, telling) switch
        {
            (null, _) => new($"{vat.Name} has no temperature to judge whether it is ready, {wanted}."),
            ({ } value, AlarmTelling.Well) => new($"{vat.Name} is at {value:°C}, {wanted}."),
            ({ } value, _) when value >= vat.Temperature.LowC => new($"{vat.Name} was not warm enough and is watched until it stays warm: {value:°C}, {wanted}."),
            ({ } value, _) => new($"{vat.Name} is not warm enough: {value:°C}, {wanted}."),
        };
    }
}
