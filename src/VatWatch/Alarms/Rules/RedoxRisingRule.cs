using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules;

/// <summary>
/// ORP rises faster than set: the reducer is going, or air is getting in. Suppressed while the vat rests after a dip or an addition, while
/// it stands cold and is not being warmed, and once it is oxidised anyway. It stays in force during the warm-up: a sound vat's ORP falls then.
/// </summary>
internal sealed class RedoxRisingRule(RuleContext context, OrpLimits limits) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.RedoxRising).Deadband);
    private readonly double _limit = limits.RisingMillivoltsPerHour;
    private readonly OxidisedSense _oxidised = new(context, limits);
    private AlarmSignal _before;
    private double? _millivolts;

    public AlarmName Name { get; } = new(AlarmNames.RedoxRising);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(AlarmNames.RedoxRising);

    public AlarmRationale Rationale { get; } = new(
        "Air is getting in (lid off, stirring, a splashing return), or the reducing agent is used up.",
        "The vat oxidises and the yarn dipped in it washes out.",
        "Close the lid, stop what stirs in air and let the vat rest. If it still rises, sharpen it in small portions as the dosing page works out.",
        "1 to 3 h before the vat turns");

    public bool DependsOn(ProbeEvidence probe) => false;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var condition = evidence.Condition;
        var isOxidised = _oxidised.Evaluate(condition);
        var signal = AlarmSignal.Unknown;
        _millivolts = condition?.OrpMillivolts;
        if (condition?.OrpRateMillivoltsPerHour is { } rate)
        {
            _before = signal = _deadband.AtOrAbove(rate, _limit, _before);
        }

        return new(signal, Settings.Priority ?? AlarmPriority.High)
        {
            Value = condition?.OrpRateMillivoltsPerHour,
            Limit = _limit,
            Suppressed = condition is not null && (condition.State is VatState.Resting or VatState.TooCold || isOxidised),
        };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands) => new(Sentence(finding, stands))
    {
        Value = finding.Value is { } value ? Math.Round(value) : null,
        Limit = Math.Round(_limit),
        Unit = "mV/h",
    };

    private string Sentence(in AlarmFinding finding, bool stands)
    {
        var vat = context.Vat.Name;
        if (finding.Value is not { } rate)
        {
            return stands
                ? $"{vat} was losing its reduction, and its ORP cannot be followed now."
                : $"{vat} has no trend of ORP to judge.";
        }

        var numbers = $"ORP changes by {rate:+0;-0;0} mV/h, limit {_limit:+0} mV/h";
        var level = _millivolts is { } now ? $"; it is at {context.Units.Value(Quantity.Orp, now)}" : "";
        return finding.Signal == AlarmSignal.Met || stands
            ? $"{vat} is losing its reduction: {numbers}{level}."
            : $"{vat} holds its reduction: {numbers}{level}.";
    }
}
