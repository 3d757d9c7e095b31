using VatWatch.Measurements;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Conditions;

/// <summary>The newest measurements of one kind in one vat, and which of them may be relied on now. Not thread safe.</summary>
internal sealed class NewestValue
{
    private readonly Dictionary<ProbeId, (Measurement? Newest, TimeSpan FreshFor)> _byProbe;
    private readonly Measures _measures;

    public NewestValue(VatDefinition vat, Measures measures)
    {
        _measures = measures;
        _byProbe = vat.Probes.Where(probe => probe.Measures == measures)
            .ToDictionary(probe => probe.Id, probe => ((Measurement?)null, FreshFor(probe)));
    }

    /// <summary>Whether the vat has such a probe at all.</summary>
    public bool IsWatched => _byProbe.Count > 0;

    public void Accept(Measurement measurement)
    {
        if (_byProbe.TryGetValue(measurement.Probe, out var held))
        {
            _byProbe[measurement.Probe] = (measurement, held.FreshFor);
        }
    }

    /// <summary>The good, fresh measurement that counts: the hottest of several temperatures, otherwise the newest.</summary>
    public Measurement? Reliable(Stamp now)
    {
        var usable = _byProbe.Values.Where(held => held.Newest is { Quality: Quality.Good, Value: not null } && now.Since(held.Newest.Stamp) <= held.FreshFor)
            .Select(held => held.Newest!);
        return _measures == Measures.Temperature ? usable.MaxBy(m => m.Value) : usable.MaxBy(m => m.Stamp.Monotonic);
    }

    /// <summary>Why <see cref="Reliable"/> has nothing, as a clause.</summary>
    public string WhyNot(Stamp now)
    {
        var newest = _byProbe.Values.Select(held => held.Newest).Where(m => m is not null).MaxBy(m => m!.Stamp.Monotonic);
        return newest switch
        {
            null => "no value has come yet",
            { Quality: not Quality.Good, Reason: { } reason } => $"probe {newest.Probe}: {reason}",
            _ => $"the last value is {DisplayUnits.Duration(now.Since(newest.Stamp))} old",
        };
    }

    /// <summary>Three periods, at least 15 s: the same as the on-delay of a silent probe.</summary>
    private static TimeSpan FreshFor(ProbeDefinition probe) => TimeSpan.FromSeconds(Math.Max(15, 3 * probe.Every.TotalSeconds));
}
