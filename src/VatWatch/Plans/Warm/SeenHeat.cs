using VatWatch.Store;

namespace VatWatch.Plans.Warm;

/// <summary>What the thermometer of a vat has shown of its heat lately. Immutable.</summary>
/// <param name="WarmUps">The last warm-ups, newest first.</param>
/// <param name="Cooling">How it cools now; null when it does not, or not for long.</param>
public sealed record SeenHeat(IReadOnlyList<SeenWarmUp> WarmUps, SeenCooling? Cooling)
{
    public static SeenHeat Nothing { get; } = new([], null);

    public static SeenHeat Read(StoreReader reader, VatDefinition vat, DateTimeOffset now)
    {
        if (vat.Probes.FirstOrDefault(probe => probe.Quantity == Quantity.Temperature) is not { } liquor)
        {
            return Nothing;
        }

        return new(
            SeenWarmUp.In(Means(now - SeenWarmUp.Lookback, now, quarters: true), (from, to) => Means(from, to, quarters: false)),
            SeenCooling.In(Means(now - SeenCooling.Longest, now, quarters: false)));

        IEnumerable<(DateTimeOffset At, double C)> Means(DateTimeOffset from, DateTimeOffset to, bool quarters) =>
            reader.Rollups(vat.Id, liquor.Id, from, to, quarters).Where(one => one.Count > 0).Select(one => (one.Start, one.Mean!.Value));
    }
}
