using VatWatch.Measurements;

namespace VatWatch.Conditions.Liquor;

/// <summary>The newest measurements of one kind in one vat, and which of them may be relied on now. Not thread safe.</summary>
internal sealed class NewestValue
{
    private readonly Slot[] _slots;
    private readonly Quantity _measures;

    public NewestValue(VatDefinition vat, Quantity measures)
    {
        _measures = measures;
        _slots = [.. vat.Probes.Where(probe => probe.Quantity == measures).Select(probe => new Slot(probe.Id, FreshFor(probe)))];
    }

    /// <summary>Whether the vat has such a probe at all.</summary>
    public bool IsWatched => _slots.Length > 0;

    public void Accept(Measurement measurement)
    {
        foreach (var slot in _slots)
        {
            if (slot.Probe == measurement.Probe)
            {
                slot.Newest = measurement;
            }
        }
    }

    /// <summary>The good, fresh measurement that counts: the hottest of several temperatures, otherwise the newest.</summary>
    public Measurement? Reliable(Stamp now)
    {
        Measurement? best = null;
        foreach (var slot in _slots)
        {
            if (slot.Reliable(now) is { } usable && (best is null || Counts(usable, best)))
            {
                best = usable;
            }
        }

        return best;
    }

    /// <summary>The newest of one probe, if good and fresh.</summary>
    public Measurement? Reliable(Stamp now, ProbeId probe)
    {
        foreach (var slot in _slots)
        {
            if (slot.Probe == probe)
            {
                return slot.Reliable(now);
            }
        }

        return null;
    }

    /// <summary>Why <see cref="Reliable(Stamp)"/> has nothing, as a clause.</summary>
    public string WhyNot(Stamp now)
    {
        var newest = _slots.Select(slot => slot.Newest).Where(m => m is not null).MaxBy(m => m!.Stamp.Monotonic);
        return newest switch
        {
            null => "no value has come yet",
            { Quality: Quality.Fault or Quality.Missing, Value: null, Raw: null, Quantity: Quantity.Temperature } => $"probe {newest.Probe} gives no reading",
            { Quality: not Quality.Good, Reason: { } reason } => $"probe {newest.Probe}: {reason}",
            _ => $"the last value is {DisplayUnits.Duration(now.Since(newest.Stamp))} old",
        };
    }

    private bool Counts(Measurement one, Measurement other) =>
        _measures == Quantity.Temperature ? one.Value > other.Value : one.Stamp.Monotonic > other.Stamp.Monotonic;

    /// <summary>Three periods, at least 15 s: the same as the on-delay of a silent probe.</summary>
    private static TimeSpan FreshFor(ProbeDefinition probe) => TimeSpan.FromSeconds(Math.Max(15, 3 * probe.Every.TotalSeconds));

    private sealed class Slot(ProbeId probe, TimeSpan freshFor)
    {
        public ProbeId Probe => probe;

        public Measurement? Newest { get; set; }

        public Measurement? Reliable(Stamp now) =>
            Newest is { Quality: Quality.Good, Value: not null } newest && now.Since(newest.Stamp) <= freshFor ? newest : null;
    }
}
