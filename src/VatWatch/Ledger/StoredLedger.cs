using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Ledger;

/// <summary>What the store holds for the ledger of a vat.</summary>
public static class StoredLedger
{
    /// <summary>More sessions than a vat sees in its life.</summary>
    private const int MostSessions = 10_000;

    /// <summary>Finer than this the warmth of a vat is not asked for.</summary>
    private static readonly TimeSpan Gap = TimeSpan.FromHours(1);

    /// <summary>Reads it. The readings are read while the ledger is made, so the reader is needed until then.</summary>
    public static LedgerFacts Read(StoreReader reader, VatDefinition vat, DisplayUnits units)
    {
        var probes = vat.Probes.ToLookup(probe => probe.Quantity, probe => probe.Id);
        var (first, last) = reader.Span(vat.Id) ?? (DateTimeOffset.MaxValue, DateTimeOffset.MinValue);
        return new(
            vat,
            EntryTable.Between(reader, vat.Id, DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue),
            SessionTable.Newest(reader, vat.Id, MostSessions).Where(session => session.Details.YarnGrams is > 0).ToDictionary(session => session.Id, session => session.Details.YarnGrams!.Value),
            units,
            (quantity, from, to) => to < first || from > last ? null : Mean(reader, vat.Id, probes[quantity], from, to));
    }

    private static double? Mean(StoreReader reader, VatId vat, IEnumerable<ProbeId> probes, DateTimeOffset from, DateTimeOffset to)
    {
        var columns = probes.SelectMany(probe => reader.Columns(vat, probe, from, to, 1, Gap)).ToList();
        return columns.Count > 0 ? columns.Sum(column => column.Count * column.Mean) / columns.Sum(column => column.Count) : null;
    }
}
