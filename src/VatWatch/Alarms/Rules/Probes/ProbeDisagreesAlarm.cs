using VatWatch.Alarms.Lifecycle;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Probes;

/// <summary>
/// <c>probe-disagrees.KIND</c>: two or more probes of one kind in one vat differ by more than is allowed. Named for what they measure, for example
/// <c>probe-disagrees.temperature</c>.
/// </summary>
internal sealed class ProbeDisagreesAlarm : IAlarmRule
{
    private readonly RuleContext _context;
    private readonly Quantity _measures;
    private readonly double _limit;
    private readonly Deadband _deadband;
    private AlarmSignal _before;
    private ProbeEvidence? _lowest;
    private ProbeEvidence? _highest;

    private ProbeDisagreesAlarm(RuleContext context, Quantity measures, double limit)
    {
        _context = context;
        _measures = measures;
        _limit = limit;
        _deadband = new(limit / 10);
        Name = new(Kind.Word, measures.Word());
        Settings = context.Settings.For(Kind.Word);
        Rationale = new(
            "One probe has drifted or hangs elsewhere, or the vat is not mixed.",
            $"Nobody knows which {GuardedProbe.Noun(measures)} is true.",
            measures == Quantity.Temperature
                ? "Trust the hotter one. Stir gently without drawing in air and read again; if they still differ, compare both probes in one cup of warm water."
                : "Rinse both probes, put them side by side and read again; calibrate them if they still differ.",
            measures == Quantity.Temperature ? "within the hour while heating" : "before the next session");
    }

    public static AlarmKind Kind { get; } = new("probe-disagrees", AlarmRuleSettings.Of(null, "0:10:00", "0:05:00", "1:00:00")) { RulesFor = Rules };

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

        return new(isPair ? _before : AlarmSignal.Unknown, GuardedProbe.PriorityOf(Settings, _context.Settings.OfGuard(_measures), first!, evidence))
        {
            Value = _highest?.Value - _lowest?.Value,
            Limit = _limit,
            Unit = _measures == Quantity.Temperature ? "K" : _measures.Unit(),
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands)
    {
        var noun = $"{GuardedProbe.Noun(_measures)} probes in {_context.Vat.Name}";
        return _lowest is null || _highest is null
            ? new($"The {noun} have not both been read yet.")
            : new($"The {noun} {(finding.Signal == AlarmSignal.Met || stands ? "disagree" : "agree")}: {Reading(_highest)} and {Reading(_lowest)}.");
    }

    private static IEnumerable<IAlarmRule> Rules(RuleContext context)
    {
        var probes = context.Vat.Probes;
        foreach (var first in probes.Where(one => ReferenceEquals(one, probes.First(other => other.Quantity == one.Quantity))))
        {
            if (probes.Count(other => other.Quantity == first.Quantity) > 1 && context.Settings.Disagreement.For(first.Quantity) is { } limit)
            {
                yield return new ProbeDisagreesAlarm(context, first.Quantity, limit);
            }
        }
    }

    private Sentence Reading(ProbeEvidence probe) => new($"{probe.Definition.Id.Value} shows {Sentence.Of(_measures, probe.Value ?? 0)}");

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

/// <summary>How far two probes of one kind in one vat may differ before one of them must be wrong.</summary>
/// <param name="TemperatureK">Liquor temperature; 1 K by default, the mark of a vat that is not mixed.</param>
/// <param name="Ph">pH; 0.3 by default, common practice, no source.</param>
/// <param name="OrpMillivolts">ORP; 30 mV by default, within the 20 to 50 mV that platinum drifts.</param>
public sealed record DisagreementLimits(double TemperatureK = 1, double Ph = 0.3, double OrpMillivolts = 30)
{
    /// <summary>The limit for one kind; null for kinds that are not compared.</summary>
    public double? For(Quantity measures) => measures switch
    {
        Quantity.Temperature => TemperatureK,
        Quantity.Ph => Ph,
        Quantity.Orp => OrpMillivolts,
        _ => null,
    };

    /// <summary>Reads <c>temperature</c>, <c>ph</c> and <c>orp</c> of <c>probe-disagrees</c>. Faults go to the node.</summary>
    internal static DisagreementLimits Read(ConfigNode node)
    {
        var defaults = new DisagreementLimits();
        return new(
            node.Quantity("temperature", QuantityKind.TemperatureDifference, 0.1, 20, defaults.TemperatureK),
            node.Number("ph", 0.05, 3, defaults.Ph),
            node.Quantity("orp", QuantityKind.Potential, 1, 500, defaults.OrpMillivolts));
    }
}
