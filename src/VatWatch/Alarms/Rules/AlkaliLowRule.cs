namespace VatWatch.Alarms.Rules;

/// <summary>pH has stayed below the band.</summary>
internal sealed class AlkaliLowRule(RuleContext context, PhBand band) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.AlkaliLow).Deadband);
    private AlarmSignal _before;

    public AlarmName Name { get; } = new(AlarmNames.AlkaliLow);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(AlarmNames.AlkaliLow);

    public AlarmRationale Rationale { get; } = new(
        "Alkali is eaten by the reducing agent, by air and by the yarn.",
        "The dye dissolves and takes poorly, and the reduction slows down.",
        "Read again with the probe rinsed. Then add dissolved alkali in small portions as the dosing page works out, with time to mix in between.",
        "hours");

    public bool DependsOn(ProbeEvidence probe) => false;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var ph = evidence.Condition?.Ph;
        var signal = AlarmSignal.Unknown;
        if (ph is { } value)
        {
            _before = signal = _deadband.Below(value, band.Low, _before);
        }

        return new(signal, Settings.Priority ?? AlarmPriority.Medium) { Value = ph, Limit = band.Low };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands) =>
        PhText.Message(context, finding, stands, "short of alkali", "below");
}
