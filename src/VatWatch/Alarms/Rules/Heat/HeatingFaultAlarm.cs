using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>heating-fault</c>: the heat balance does not add up: the condition carries a diagnosis of the heating. What may end in fire, scald or shock is told one
/// priority higher than what only costs time.
/// </summary>
internal sealed class HeatingFaultAlarm(RuleContext context) : IAlarmRule
{
    /// <summary>At and above the limit nothing returns to normal but by cooling: a plateau there is a vat that boils or is still heated.</summary>
    private readonly double _belowC = context.Vat.Temperature.LimitC - context.Settings.For(OverheatAlarm.Kind.Word).Deadband;
    private Diagnosis? _diagnosis;
    private bool _isSlow;
    private bool _isBlind;

    public static AlarmKind Kind { get; } = new("heating-fault", AlarmRuleSettings.Guard(AlarmPriority.Medium, "0:01:00", "0:05:00", "0:15:00"))
    {
        RulesFor = context => [new HeatingFaultAlarm(context)],
    };

    public AlarmName Name { get; } = new(Kind.Word);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(Kind.Word);

    public AlarmRationale Rationale { get; } = new(
        "A dead, tripped, uncovered or stuck heater, an open lid, or a probe that hangs in the air.",
        "A late session at best; an element that burns dry or a vat that boils at worst.",
        "Switch the heater off at the plug, then look at its level mark, its plug, its ground-fault switch and the lid.",
        "minutes when the element may be uncovered, hours otherwise");

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var found = Weightiest(evidence.Condition);
        _diagnosis = found ?? _diagnosis;
        _isBlind = _diagnosis?.Kind is DiagnosisKind.ProbeOutOfLiquor or DiagnosisKind.FrozenValue && evidence.Condition is { TemperatureC: null, WarmUp: not null };
        _isSlow = evidence.Condition?.WarmUp?.SlowSince is not null;
        var signal = found is not null ? AlarmSignal.Met
            : evidence.Condition?.TemperatureC < _belowC ? AlarmSignal.Clear
            : AlarmSignal.Unknown;
        return new(signal, signal == AlarmSignal.Clear ? Ordinary : PriorityOf(_diagnosis?.Kind))
        {
            Cause = (int?)found?.Kind,
            Action = evidence.Condition?.TemperatureC is { } hotC && hotC >= context.Vat.Temperature.LimitC ? SafetyActions.At(hotC, context.Vat.BoilingC)
                : _diagnosis is { } of ? Action(of.Kind) : null,
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands) => _diagnosis is { } known && (finding.Signal == AlarmSignal.Met || stands)
        ? new($"Heating of {context.Vat.Name}: {known.Sentence}{(finding.Priority == AlarmPriority.Critical && _isBlind ? " The vat is being warmed up, and nothing shows how hot it is." : "")}")
        : _isSlow ? new($"{context.Vat.Name} still does not warm up as it should; of its heating nothing else is told.")
        : new($"The heating of {context.Vat.Name} shows no fault.");

    /// <summary>Whether it tells of a heater that does not heat, or of a probe out of the liquor: the same trouble as a warm-up that fails.</summary>
    public static bool TellsOf(VatCondition? condition)
    {
        for (var i = 0; i < condition?.Diagnoses.Count; i++)
        {
            var diagnosis = condition.Diagnoses[i];
            if (diagnosis.Kind is DiagnosisKind.HeaterNotHeating or DiagnosisKind.ElementUncovered or DiagnosisKind.ProbeOutOfLiquor)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The first that may end in fire, scald or shock, else the first. Less heat than usual goes without saying where <see cref="WarmingFaultAlarm"/> tells that there is next to none, and where there is too much.</summary>
    private Diagnosis? Weightiest(VatCondition? condition)
    {
        var isToldSlow = condition?.WarmUp?.SlowSince is not null && context.Settings.For(WarmingFaultAlarm.Kind.Word).Enabled;
        var isHot = condition?.TemperatureC >= context.Vat.Temperature.LimitC;
        Diagnosis? first = null;
        for (var i = 0; i < condition?.Diagnoses.Count; i++)
        {
            var diagnosis = condition.Diagnoses[i];
            if (!IsOfHeating(diagnosis) || ((isToldSlow || isHot) && diagnosis.Kind is DiagnosisKind.WeakHeater or DiagnosisKind.LosingHeat)
                || (isHot && diagnosis.Kind is DiagnosisKind.HeaterNotHeating or DiagnosisKind.CoolsOutOfBand))
            {
                continue;
            }

            if (IsDangerous(diagnosis.Kind))
            {
                return diagnosis;
            }

            first ??= diagnosis;
        }

        return first;
    }

    private AlarmPriority Ordinary => Settings.Priority ?? AlarmPriority.Medium;

    /// <summary>A vat that is being heated while nothing shows how warm it is may boil unseen.</summary>
    private AlarmPriority PriorityOf(DiagnosisKind? kind) =>
        _isBlind ? AlarmPriority.Critical
        : kind is { } known && IsDangerous(known) && Ordinary < AlarmPriority.Critical ? Ordinary + 1
        : Ordinary;

    private bool IsOfHeating(Diagnosis diagnosis) => diagnosis.Kind switch
    {
        DiagnosisKind.Stratified or DiagnosisKind.ColdLoad or DiagnosisKind.ReducerRunningOut or DiagnosisKind.ElectrodeDrift or DiagnosisKind.NoThermostatKnown => false,
        DiagnosisKind.FrozenValue => context.Vat.Probes.Any(probe => probe.Id == diagnosis.Probe && probe.Quantity == Quantity.Temperature),
        _ => true,
    };

    private static bool IsDangerous(DiagnosisKind kind) =>
        kind is DiagnosisKind.HeaterNotHeating or DiagnosisKind.ElementUncovered or DiagnosisKind.HeaterStuckOn or DiagnosisKind.ProbeOutOfLiquor or DiagnosisKind.FrozenValue or DiagnosisKind.LeakageCurrent;

    private static string? Action(DiagnosisKind kind) => kind switch
    {
        DiagnosisKind.HeaterNotHeating => "The liquor may be far hotter than shown, or the element dry: unplug the heater at the wall and let it cool before you look at probe, level and ground-fault switch.",
        DiagnosisKind.ElementUncovered => "Unplug the heater at the wall now and let it cool before you fill up.",
        DiagnosisKind.FrozenValue => "The liquor may be far hotter than shown: unplug the heater, measure by hand, and look at the probe's cable and its instrument.",
        DiagnosisKind.HeaterStuckOn => "Unplug the heater at the wall: a relay that has welded shut obeys no switch, and solid-state ones fail closed. Keep clear of the liquor.",
        DiagnosisKind.ProbeOutOfLiquor => "The liquor may be far hotter than shown: unplug the heater, stay back from steam, then hang the probe back in.",
        DiagnosisKind.LeakageCurrent => "Pull the heater's plug and have the heater tested before it is used again.",
        DiagnosisKind.LosingHeat => "Look at the lid and the wrapping, and at the level.",
        DiagnosisKind.WeakHeater => "Look at the plug, the cord and the scale on the element, with the heater unplugged.",
        _ => null,
    };
}
