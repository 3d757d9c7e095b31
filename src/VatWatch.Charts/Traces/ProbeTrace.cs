using VatWatch.Measurements;

namespace VatWatch.Charts.Traces;

/// <summary>All that one probe gave within a record, in order of time.</summary>
internal sealed class ProbeTrace
{
    /// <summary>More than this many usual periods without a reading is a gap.</summary>
    public const int PeriodsToAGap = 3;

    // A probe of which nothing is known: too few readings, and not in the configuration any more.
    private static readonly TimeSpan UnknownPeriod = TimeSpan.FromMinutes(1);
    private const int FewestToTellPeriod = 4;

    private ProbeTrace(ProbeId probe, Quantity measures, IReadOnlyList<Measurement> readings, TimeSpan? configuredPeriod)
    {
        Probe = probe;
        Quantity = measures;
        Readings = readings;
        UsualPeriod = Median(readings) ?? configuredPeriod ?? UnknownPeriod;
    }

    public ProbeId Probe { get; }

    /// <summary>What it measures.</summary>
    public Quantity Quantity { get; }

    /// <summary>Its readings, whatever their quality. Never empty.</summary>
    public IReadOnlyList<Measurement> Readings { get; }

    /// <summary>
    /// Median time between readings, because a record may hold averages that are further apart than the probe is read; with fewer than
    /// four readings, the configured period.
    /// </summary>
    public TimeSpan UsualPeriod { get; }

    /// <summary>Longest time between two readings that a line may bridge.</summary>
    public TimeSpan LongestStep => IsSingle ? TimeSpan.Zero : UsualPeriod * PeriodsToAGap;

    /// <summary>Whether each value stands for itself, with nothing known of the time between: it is drawn as dots.</summary>
    public bool IsSingle { get; private init; }

    /// <summary>A trace of values that were worked out and not read, in order of time; at least one.</summary>
    public static ProbeTrace Made(ProbeId name, Quantity measures, IReadOnlyList<Measurement> values, bool isSingle = false) =>
        new(name, measures, values, null) { IsSingle = isSingle };

    /// <summary>The traces of a record: configured probes first and in their order, then any others as they turn up.</summary>
    public static IReadOnlyList<ProbeTrace> Of(VatRecord record)
    {
        var order = record.Vat.Probes.Select((probe, index) => (probe.Id, index)).ToDictionary(pair => pair.Id, pair => pair.index);
        return [.. record.Measurements
            .Where(measurement => measurement.Stamp.Utc >= record.From && measurement.Stamp.Utc <= record.To)
            .GroupBy(measurement => (measurement.Probe, measurement.Quantity))
            .OrderBy(group => order.GetValueOrDefault(group.Key.Probe, int.MaxValue))
            .Select(group => new ProbeTrace(group.Key.Probe, group.Key.Quantity, [.. group], Configured(record, group.Key.Probe)))];
    }

    private static TimeSpan? Configured(VatRecord record, ProbeId probe) =>
        record.Vat.Probes.FirstOrDefault(candidate => candidate.Id == probe)?.Every;

    private static TimeSpan? Median(IReadOnlyList<Measurement> readings)
    {
        if (readings.Count < FewestToTellPeriod)
            return null;
        var steps = new TimeSpan[readings.Count - 1];
        for (var i = 0; i < steps.Length; i++)
            steps[i] = Elapsed.Between(readings[i].Stamp, readings[i + 1].Stamp);
        Array.Sort(steps);
        var median = steps[steps.Length / 2];
        return median > TimeSpan.Zero ? median : null;
    }
}
