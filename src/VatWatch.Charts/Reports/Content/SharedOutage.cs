using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Reports.Content;

/// <summary>One event that silenced one or more probes: when the daemon was down, a report says so once and not once per probe.</summary>
/// <param name="Probes">The probes, in the order of the outages.</param>
internal sealed record SharedOutage(Outage Longest, IReadOnlyList<ProbeId> Probes)
{
    /// <summary>
    /// Puts together stretches of nothing recorded that begin and end together, to within the longest step of the probe; faults and missing
    /// answers stay each by itself, for each has its own reason. In order of time.
    /// </summary>
    public static IReadOnlyList<SharedOutage> Merge(IReadOnlyList<Outage> outages, IReadOnlyList<ProbeTrace> traces)
    {
        var slack = traces.ToLookup(trace => trace.Probe, trace => trace.LongestStep);
        var merged = new List<SharedOutage>();
        foreach (var outage in outages)
        {
            var same = merged.FindIndex(other => IsSame(other, outage, slack[outage.Probe].Max()));
            if (same < 0)
                merged.Add(new SharedOutage(outage, [outage.Probe]));
            else
            {
                var longest = merged[same].Longest.Length >= outage.Length ? merged[same].Longest : outage;
                merged[same] = new SharedOutage(longest, [.. merged[same].Probes, outage.Probe]);
            }
        }

        return merged;
    }

    private static bool IsSame(SharedOutage shared, Outage outage, TimeSpan slack) =>
        outage.Kind == OutageKind.NoRecord && shared.Longest.Kind == OutageKind.NoRecord && !shared.Probes.Contains(outage.Probe)
        && (shared.Longest.From - outage.From).Duration() <= slack && (shared.Longest.To - outage.To).Duration() <= slack;
}
