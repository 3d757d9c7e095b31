namespace VatWatch.Alarms.Rules;

/// <summary>Two or more probes of one kind in one vat differ by more than is allowed. Named for what they measure: <c>probe-disagrees.temperature</c>.</summary>
internal sealed class ProbeDisagreesRule : IAlarmRule
{
    private readonly RuleContext _context;
    private readonly Quantity _measures;
    private readonly double _limit;
    private readonly Deadband _deadband;
    private AlarmSignal _before;
    private ProbeEvidence? _lowest;
    private ProbeEvidence? _highest;

    public ProbeDisagreesRule(RuleContext context, Quantity measures, double limit)
    {
        _context = context;
        _measures = measures;
        _limit = limit;
        _deadband = new(limit / 10);
        Name = new($"{AlarmNames.ProbeDisagrees}.{measures.Word()}");
        Settings = context.Settings.For(AlarmNames.ProbeDisagrees);
        Rationale = new(
            "One probe has drifted or hangs elsewhere, or the vat is not mixed.",
            $"Nobody knows which {ProbeText.Noun(measures)} is true.",
            measures == Quantity.Temperature
                ? "Trust the hotter one. Stir gently without drawing in air and read again; if they still differ, compare both probes in one cup of warm water."
                : "Rinse both probes, put them side by side and read again; calibrate them if they still differ.",
            measures == Quantity.Temperature ? "within the hour while heating" : "before the next session");
    }

    public AlarmName Name { get; }

    public AlarmRuleSettings Settings { get; }

    public AlarmRationale Rationale { get; }

    public bool DependsOn(ProbeEvidence probe) => probe.Definition.Quantity == _measures;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        ProbeEvidence? lowest = null, highest = null, first = null;
        foreach (var probe in evidence.Probes)
        {
            first = DependsOn(probe) ? first ?? probe : first;
            if (DependsOn(probe) && probe.IsFresh(evidence.Now.Monotonic))
            {
                lowest = lowest?.Value <= probe.Value ? lowest : probe;
                highest = highest?.Value >= probe.Value ? highest : probe;
            }
        }

        var isPair = lowest is not null && CountFresh(evidence) > 1;
        if (isPair)
        {
            (_lowest, _highest) = (lowest, highest);
            _before = _deadband.AtOrAbove(highest!.Value!.Value - lowest!.Value!.Value, _limit, _before);
        }

        return new(isPair ? _before : AlarmSignal.Unknown, ProbeText.Priority(Settings, _context.Settings.OfGuard(_measures), first!, evidence))
        {
            Value = _highest?.Value - _lowest?.Value,
            Limit = _limit,
        };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands) => new(Sentence(finding, stands))
    {
        Value = Shown(finding.Value),
        Limit = Shown(_limit),
        Unit = _measures == Quantity.Temperature ? _context.Units.TemperatureUnit : _measures.Unit(),
    };

    private string Sentence(in AlarmFinding finding, bool stands)
    {
        var noun = $"{ProbeText.Noun(_measures)} probes in {_context.Vat.Name}";
        if (_lowest is null || _highest is null)
        {
            return $"The {noun} have not both been read yet.";
        }

        var numbers = $"{Reading(_highest)} and {Reading(_lowest)}";
        return finding.Signal == AlarmSignal.Met || stands ? $"The {noun} disagree: {numbers}." : $"The {noun} agree: {numbers}.";
    }

    private string Reading(ProbeEvidence probe) => $"{probe.Definition.Id} shows {_context.Units.Value(_measures, probe.Value ?? 0)}";

    private double? Shown(double? difference) => difference is not { } value ? null : _measures switch
    {
        Quantity.Temperature => Math.Round(_context.Units.FromKelvinDifference(value), 1),
        Quantity.Ph => Math.Round(value, 2),
        _ => Math.Round(value),
    };

    private int CountFresh(VatEvidence evidence)
    {
        var count = 0;
        foreach (var probe in evidence.Probes)
        {
            count += DependsOn(probe) && probe.IsFresh(evidence.Now.Monotonic) ? 1 : 0;
        }

        return count;
    }
}
