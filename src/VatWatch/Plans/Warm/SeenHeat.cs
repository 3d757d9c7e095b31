using VatWatch.Store;

namespace VatWatch.Plans.Warm;

/// <summary>What the thermometer of a vat has shown of its heat lately. Immutable.</summary>
/// <param name="WarmUps">The last warm-ups, newest first.</param>
/// <param name="Cooling">How it cools now; null when it does not, or not for long.</param>
public sealed record SeenHeat(IReadOnlyList<SeenWarmUp> WarmUps, SeenCooling? Cooling)
{
    /// <summary>How far it has fallen since it was last warm; null where it does not fall.</summary>
    public SeenFall? Fall { get; init; }

    /// <summary>How the room goes with the hours.</summary>
    public RoomByHour Room { get; init; } = RoomByHour.Usual;

    /// <summary>The swing of a room shows in so many hours, which hold a night and a day.</summary>
    private static readonly TimeSpan RoomLookback = TimeSpan.FromHours(30);

    public static SeenHeat Nothing { get; } = new([], null);

    public static SeenHeat Read(StoreReader reader, VatDefinition vat, DateTimeOffset now)
    {
        if (vat.Probes.FirstOrDefault(probe => probe.Quantity == Quantity.Temperature) is not { } liquor)
        {
            return Nothing;
        }

        var quarters = Means(liquor, now - SeenWarmUp.Lookback, quarters: true).ToList();
        return new(
            SeenWarmUp.In(quarters, (from, to) => Means(liquor, from, quarters: false, to)),
            SeenCooling.In(Means(liquor, now - SeenCooling.Longest, quarters: false)))
        {
            Fall = SeenFall.In(quarters),
            Room = RoomByHour.In([.. vat.Probes.Where(probe => probe.Quantity == Quantity.Ambient).Take(1).SelectMany(room => Means(room, now - RoomLookback, quarters: true))]),
        };

        IEnumerable<(DateTimeOffset At, double C)> Means(ProbeDefinition probe, DateTimeOffset from, bool quarters, DateTimeOffset? to = null) =>
            reader.Rollups(vat.Id, probe.Id, from, to ?? now, quarters).Where(one => one.Count > 0).Select(one => (one.Start, one.Mean!.Value));
    }
}
