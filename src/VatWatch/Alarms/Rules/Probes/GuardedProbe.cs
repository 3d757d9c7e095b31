namespace VatWatch.Alarms.Rules.Probes;

/// <summary>One probe and what it guards: what the two alarms about a single probe share.</summary>
internal sealed class GuardedProbe(RuleContext context, ProbeDefinition probe)
{
    private readonly AlarmPriority _guarded = context.Settings.OfGuard(probe.Quantity);
    private VatEvidence? _of;
    private ProbeEvidence? _known;

    public ProbeDefinition Definition => probe;

    /// <summary>For example "probe liquor (temperature) in Madder Lane vat".</summary>
    public string Called { get; } = $"probe {probe.Id} ({Noun(probe.Quantity)}) in {context.Vat.Name}";

    /// <summary>What is known of it; looked up once.</summary>
    public ProbeEvidence In(VatEvidence evidence)
    {
        if (_of != evidence)
        {
            (_of, _known) = (evidence, evidence.Find(probe.Id));
        }

        return _known!;
    }

    /// <summary>Why its alarms exist; only <paramref name="cause"/> differs between them.</summary>
    public AlarmRationale Rationale(string cause)
    {
        var isTemperature = probe.Quantity == Quantity.Temperature;
        return new(
            cause,
            isTemperature ? "The vat heats with nobody watching its temperature." : $"The {Noun(probe.Quantity)} of the vat is not watched.",
            probe.Quantity switch
            {
                Quantity.Temperature => "Temperature unknown: switch the heater off at the plug and take the liquor for hot, then look at the probe, its cable and its power.",
                Quantity.Level => "Level unknown: make sure the heater is well covered, and unplug it if you cannot. Then look at the probe, its cable and its power.",
                Quantity.Heater => "Feel whether the heater warms by the liquor's temperature, not by hand. Look at the sensor, its cable and its power.",
                _ => "Look at the probe, its cable and its power. Unplug the heater before you reach into the liquor.",
            },
            isTemperature ? "10 min while the heater may be on" : "before the next session");
    }

    /// <summary>Priority of an alarm about it: that of what it guards, one step lower while another temperature probe still serves.</summary>
    public AlarmPriority Priority(AlarmRuleSettings settings, ProbeEvidence evidence, VatEvidence vat) =>
        PriorityOf(settings, _guarded, evidence, vat);

    /// <summary>The same for a kind of probe whose <paramref name="guarded"/> is known.</summary>
    public static AlarmPriority PriorityOf(AlarmRuleSettings settings, AlarmPriority guarded, ProbeEvidence probe, VatEvidence vat)
    {
        if (settings.Priority is { } set)
        {
            return set;
        }

        var hasSecond = probe.Definition.Quantity == Quantity.Temperature && guarded > AlarmPriority.Low && HasServingNeighbour(probe, vat);
        return hasSecond ? guarded - 1 : guarded;
    }

    /// <summary>What a probe measures, as the dyer says it.</summary>
    public static string Noun(Quantity measures) => measures switch
    {
        Quantity.Temperature => "temperature",
        Quantity.Ambient => "room temperature",
        Quantity.Ph => "pH",
        Quantity.Orp => "ORP",
        Quantity.Heater => "heater",
        Quantity.HeaterCommand => "heater's switch",
        _ => "level",
    };

    /// <summary>A probe's reason as a clause: without the full stop.</summary>
    public static string Clause(string? reason) => string.IsNullOrWhiteSpace(reason) ? "no reason given" : reason.Trim().TrimEnd('.');

    /// <summary>A neighbour serves until it is silent; just after the start that is not known yet.</summary>
    private static bool HasServingNeighbour(ProbeEvidence probe, VatEvidence evidence)
    {
        foreach (var other in evidence.Probes)
        {
            if (other != probe && other.Definition.Quantity == probe.Definition.Quantity && evidence.Now.Monotonic - other.ValueAt < other.SilentAfter)
            {
                return true;
            }
        }

        return false;
    }
}
