namespace VatWatch.Alarms.Rules;

/// <summary>pH has stayed above the band. The harmful side for wool and silk.</summary>
internal sealed class AlkaliHighRule(RuleContext context, PhBand band) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.AlkaliHigh).Deadband);
    private AlarmSignal _before;

    public AlarmName Name { get; } = new(AlarmNames.AlkaliHigh);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(AlarmNames.AlkaliHigh);

    public AlarmRationale Rationale { get; } = new(
        "Too much alkali was added, or added faster than it mixed.",
        context.Vat.Fibre == Fibre.Protein ? "Wool and silk turn harsh and weak." : "Dye is taken less well, and the liquor is harder on hands.",
        context.Vat.Fibre == Fibre.Protein
            ? "Keep wool and silk out. Read again with the probe rinsed and the vat mixed, then thin it with warm water. Never add acid: it drives harmful gas out of the vat."
            : "Read again with the probe rinsed and the vat mixed, then thin it with warm water. Never add acid: it drives harmful gas out of the vat.",
        "before the next dip");

    public bool DependsOn(ProbeEvidence probe) => false;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var ph = evidence.Condition?.Ph;
        var signal = AlarmSignal.Unknown;
        if (ph is { } value)
        {
            _before = signal = _deadband.AtOrAbove(value, band.High, _before);
        }

        return new(signal, Settings.Priority ?? AlarmPriority.Medium) { Value = ph, Limit = band.High };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands) =>
        PhText.Message(context, finding, stands, "too alkaline", "above");
}
