namespace VatWatch.Alarms.Rules;

/// <summary>What the alarms about one probe share: how it is called and what to do when it fails.</summary>
internal static class ProbeText
{
    /// <summary>For example "probe liquor (temperature) in Madder Lane vat".</summary>
    public static string Called(ProbeDefinition probe, VatDefinition vat) => $"probe {probe.Id} ({Noun(probe.Quantity)}) in {vat.Name}";

    /// <summary>What the probe measures, as the dyer says it.</summary>
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

    /// <summary>What to do while that probe tells nothing.</summary>
    public static string Action(Quantity measures) => measures switch
    {
        Quantity.Temperature => "Temperature unknown: switch the heater off at the plug, then look at the probe, its cable and its power.",
        Quantity.Level => "Level unknown: make sure the heater is well covered, and unplug it if you cannot. Then look at the probe, its cable and its power.",
        Quantity.Heater => "Feel whether the heater warms by the liquor's temperature, not by hand. Look at the sensor, its cable and its power.",
        _ => "Look at the probe, its cable and its power. Unplug the heater before you reach into the liquor.",
    };

    /// <summary>Priority of an alarm about this probe: that of what it guards, one step lower while another temperature probe still serves.</summary>
    public static AlarmPriority Priority(AlarmRuleSettings settings, AlarmPriority guarded, ProbeEvidence probe, VatEvidence evidence)
    {
        if (settings.Priority is { } set)
        {
            return set;
        }

        var hasSecond = probe.Definition.Quantity == Quantity.Temperature && guarded > AlarmPriority.Low && HasServingNeighbour(probe, evidence);
        return hasSecond ? guarded - 1 : guarded;
    }

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

    /// <summary>A probe's reason as a clause: without the full stop.</summary>
    public static string Clause(string? reason) => string.IsNullOrWhiteSpace(reason) ? "no reason given" : reason.Trim().TrimEnd('.');
}
