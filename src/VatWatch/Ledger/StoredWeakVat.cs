using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Ledger;

/// <summary>What the store tells of a weak vat now.</summary>
public static class StoredWeakVat
{
    /// <summary>An older value says nothing of now.</summary>
    private static readonly TimeSpan Freshest = TimeSpan.FromMinutes(15);

    /// <summary>Reads it; without a store only the log book speaks.</summary>
    public static WeakVat Read(StoreReader? reader, LedgerFacts facts, DateTimeOffset now)
    {
        var newest = reader?.Latest().Where(one => one.Vat == facts.Vat.Id && now - one.Stamp.Utc <= Freshest).ToList() ?? [];
        return new(facts, now, Good(Quantity.Temperature), Good(Quantity.Ph), Good(Quantity.Orp), Doubt(newest));

        double? Good(Quantity quantity) => newest.FirstOrDefault(one => one.Quantity == quantity && one.GoodValue is not null)?.GoodValue;
    }

    private static string? Doubt(IReadOnlyList<Measurement> newest)
    {
        var electrode = newest.FirstOrDefault(one => one.Quantity is Quantity.Ph or Quantity.Orp && one.GoodValue is null);
        return electrode is null ? null : $"electrode '{electrode.Probe}' is {electrode.Quality.Word()}: {electrode.Reason ?? "no reason given"}";
    }
}
