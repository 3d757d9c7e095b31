using VatWatch.Alarms.Lifecycle;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>overheat</c>: the hottest temperature probe is at or above the limit. Doubtful values count; a probe that fell silent while hot leaves the question
/// open, so that neither its silence nor a cooler neighbour clears the alarm.
/// </summary>
internal sealed class OverheatAlarm(RuleContext context) : IAlarmRule
{
    /// <summary>Limits written in °F come back from °C a hair off; a value that reads the same as the limit is at the limit.</summary>
    private const double RoundingC = 0.001;

    /// <summary>Each further step of this many kelvin is told again: 49 °C scalds in minutes, 52 °C in under two. Engineering judgement.</summary>
    private const double StepK = 3;

    private readonly Deadband _deadband = new(context.Settings.For(Kind.Word).Deadband);
    private readonly double _limitC = context.Vat.Temperature.LimitC;
    private readonly bool _hasSeveral = context.Vat.Probes.Count(probe => probe.Quantity == Quantity.Temperature) > 1;
    private AlarmSignal _before;

    public static AlarmKind Kind { get; } = new("overheat", AlarmRuleSettings.Guard(AlarmPriority.Critical, "0:00:10", "0:02:00", "0:05:00", deadband: 0.5) with { ReAlarm = TimeSpan.FromMinutes(30) })
    {
        DeadbandIn = QuantityKind.TemperatureDifference,
        DeadbandMost = 5,
        RulesFor = context => [new OverheatAlarm(context)],
    };

    public AlarmName Name { get; } = new(Kind.Word);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(Kind.Word);

    public AlarmRationale Rationale { get; } = new(
        "The heater stays on: a stuck thermostat or relay, a wrong setting, or a lid that holds more heat than expected.",
        "Scalding liquor, a softening bin and lost dye; in the end a boiling vat that gives off steam and harmful gas.",
        SafetyActions.TooHot,
        "20 to 40 min before a lidded vat scalds at once");

    public bool DependsOn(ProbeEvidence probe) => probe.Definition.Quantity == Quantity.Temperature;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        ProbeEvidence? hottest = null, hottestSilent = null;
        foreach (var probe in evidence.Probes)
        {
            if (!DependsOn(probe) || probe.ReportedValue is not { } value)
            {
                continue;
            }

            var isFresh = evidence.Now.Monotonic - probe.ReportedAt < probe.SilentAfter;
            ref var place = ref isFresh ? ref hottest : ref hottestSilent;
            place = place?.ReportedValue >= value ? place : probe;
        }

        return Judge(hottest, hottestSilent);
    }

    private AlarmFinding Judge(ProbeEvidence? hottest, ProbeEvidence? hottestSilent)
    {
        var signal = AlarmSignal.Unknown;
        var source = hottest;
        if (hottest?.ReportedValue is { } value)
        {
            _before = signal = _deadband.AtOrAbove(value, _limitC - RoundingC, _before);
        }

        if (signal != AlarmSignal.Met && hottestSilent?.ReportedValue >= _limitC - _deadband.Width)
        {
            signal = AlarmSignal.Unknown;
            source = hottestSilent;
        }

        var shown = (source ?? hottestSilent)?.ReportedValue;
        return new(signal, Settings.Priority ?? AlarmPriority.Critical)
        {
            Value = shown,
            Limit = _limitC,
            Unit = "°C",
            Action = SafetyActions.At(shown, context.Vat.BoilingC),
            Level = shown is { } hot && hot > _limitC ? (int)((hot - _limitC) / StepK) : 0,
            Note = _hasSeveral && source is not null ? new($" by probe {source.Definition.Id.Value}") : null,
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands)
    {
        var vat = context.Vat.Name;
        if (finding.Value is not { } value)
        {
            return new($"{vat} has no temperature to hold against its limit of {_limitC:°C}.");
        }

        var numbers = new Sentence($"{value:°C}{finding.Note}, limit {_limitC:°C}");
        return (finding.Signal, stands) switch
        {
            (AlarmSignal.Met, _) when value < _limitC - RoundingC => new($"{vat} has been at its limit: {numbers}."),
            (AlarmSignal.Met, _) => new($"{vat} {(SafetyActions.IsNearBoiling(value, context.Vat.BoilingC) ? "boils or is about to" : "is too hot")}: {numbers}."),
            (AlarmSignal.Unknown, true) => new($"{vat} was too hot when last read: {numbers}; there is no reading now."),
            (AlarmSignal.Clear, true) => new($"{vat} was over its limit and is watched until it stays below: {numbers}."),
            _ => new($"{vat} is below its limit: {numbers}."),
        };
    }
}
