using System.Collections.Concurrent;

namespace VatWatch.Probes;

/// <summary>The newest good temperature of each vat's liquor, for instruments that must be told it. Thread safe.</summary>
public sealed class KnownTemperatures(WatchClock clock)
{
    /// <summary>A liquor moves by well under 1 K in this time (5 K in half an hour is much), which no electrode shows.</summary>
    private static readonly TimeSpan Holds = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<VatId, (double TemperatureC, TimeSpan At, TimeSpan Holds)> _newest = new();

    /// <summary>Takes in a good temperature, °C, of a probe that is read each <paramref name="every"/>.</summary>
    public void Note(VatId vat, double temperatureC, TimeSpan every) =>
        _newest[vat] = (temperatureC, clock.Now().Monotonic, Holds > 3 * every ? Holds : 3 * every);

    /// <summary>The temperature, °C; null when none is good and younger than a minute or three of its periods.</summary>
    public double? Of(VatId vat) =>
        _newest.TryGetValue(vat, out var newest) && clock.Now().Monotonic - newest.At <= newest.Holds ? newest.TemperatureC : null;
}
