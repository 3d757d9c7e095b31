using VatWatch.Conditions.Heating;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Plans.Warm;

/// <summary>What the store tells a plan of a vat. Immutable.</summary>
/// <param name="LiquorC">The liquor, °C; null when nothing newer than <see cref="Freshest"/> is good.</param>
/// <param name="WhyNoLiquor">Then why not, as a clause.</param>
/// <param name="RoomC">The room, °C; null when no probe tells it.</param>
/// <param name="Learned">What was learned of its heat; null for nothing.</param>
/// <param name="Seen">What its thermometer showed lately.</param>
public sealed record StoredVat(double? LiquorC, string? WhyNoLiquor, double? RoomC, LearnedHeat? Learned, SeenHeat Seen)
{
    /// <summary>How long its dips took lately; null for too few.</summary>
    public TimeSpan? Dip { get; init; }

    /// <summary>How long ORP took to come back after them; null where that was not seen.</summary>
    public TimeSpan? Recovery { get; init; }

    public static StoredVat Unknown { get; } = new(null, "nothing was measured yet", null, null, SeenHeat.Nothing);

    /// <summary>An older value says nothing of now.</summary>
    public static TimeSpan Freshest { get; } = TimeSpan.FromMinutes(15);

    public static StoredVat Read(StoreReader reader, VatDefinition vat, DateTimeOffset now)
    {
        var newest = reader.Latest().Where(one => one.Vat == vat.Id).ToDictionary(one => one.Probe);
        var liquor = Values(vat, newest, Quantity.Temperature).ToList();
        var good = liquor.FirstOrDefault(one => one.GoodValue is not null && now - one.Stamp.Utc <= Freshest);
        return new(
            good?.GoodValue,
            good is null ? WhyNot(liquor.FirstOrDefault(), now) : null,
            Values(vat, newest, Quantity.Ambient).FirstOrDefault(one => one.GoodValue is not null && now - one.Stamp.Utc <= Freshest)?.GoodValue,
            LearnedHeatTable.All(reader).GetValueOrDefault(vat.Id),
            SeenHeat.Read(reader, vat, now));
    }

    private static IEnumerable<Measurement> Values(VatDefinition vat, Dictionary<ProbeId, Measurement> newest, Quantity quantity) =>
        vat.Probes.Where(probe => probe.Quantity == quantity).Select(probe => newest.GetValueOrDefault(probe.Id)).OfType<Measurement>();

    private static string WhyNot(Measurement? newest, DateTimeOffset now) => newest switch
    {
        null => "nothing was measured yet",
        { GoodValue: null } => $"probe '{newest.Probe}' is at fault: {newest.Reason ?? newest.Quality.Word()}",
        _ => $"the newest reading of probe '{newest.Probe}' is {DisplayUnits.Duration(now - newest.Stamp.Utc)} old",
    };
}
