namespace VatWatch.Calibration;

/// <summary>The liquor temperature by which an electrode's slope is corrected, and how far it may be trusted. Not thread safe.</summary>
/// <remarks>
/// Of several probes the first in the configuration that is fresh counts, so that the pH does not jump when two differ by a little. When none
/// is fresh, the newest value of all holds for <see cref="Holds"/>.
/// </remarks>
public sealed class LiquorTemperature(VatDefinition vat)
{
    /// <summary>
    /// A vat moves by less than about 5 K in half an hour, which shifts a pH of 10 by 0.05: 3 pH from the isopotential point × 5 K / 320 K.
    /// </summary>
    public static readonly TimeSpan Holds = TimeSpan.FromMinutes(30);

    private readonly Slot[] _slots =
        [.. vat.Probes.Where(probe => probe.Quantity == Quantity.Temperature).Select(probe => new Slot(probe.Id, FreshFor(probe)))];

    /// <summary>Whether the vat has a temperature probe at all.</summary>
    public bool IsWatched => _slots.Length > 0;

    /// <summary>Takes in a good temperature, °C.</summary>
    public void Take(ProbeId probe, double temperatureC, Stamp at)
    {
        foreach (var slot in _slots)
        {
            if (slot.Probe == probe)
            {
                (slot.TemperatureC, slot.At) = (temperatureC, at);
            }
        }
    }

    /// <summary>The temperature that counts at <paramref name="now"/>, °C, and since when it has not been renewed (null: it is fresh).</summary>
    public (double TemperatureC, TimeSpan? Stale)? At(Stamp now)
    {
        Slot? newest = null;
        foreach (var slot in _slots)
        {
            if (slot.TemperatureC is null)
            {
                continue;
            }

            if (now.Since(slot.At) <= slot.FreshFor)
            {
                return (slot.TemperatureC!.Value, null);
            }

            newest = newest is null || slot.At.Monotonic > newest.At.Monotonic ? slot : newest;
        }

        return newest is { TemperatureC: { } last } && now.Since(newest.At) is var age && age <= Holds ? (last, age) : null;
    }

    /// <summary>Three periods, at least 15 s: the same as the on-delay of a silent probe.</summary>
    private static TimeSpan FreshFor(ProbeDefinition probe) => TimeSpan.FromSeconds(Math.Max(15, 3 * probe.Every.TotalSeconds));

    private sealed class Slot(ProbeId probe, TimeSpan freshFor)
    {
        public ProbeId Probe => probe;

        public TimeSpan FreshFor => freshFor;

        public double? TemperatureC { get; set; }

        public Stamp At { get; set; }
    }
}
