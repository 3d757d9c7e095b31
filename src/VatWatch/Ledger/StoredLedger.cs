using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;
using VatWatch.Store.Series;

namespace VatWatch.Ledger;

/// <summary>What the store holds for the ledger of a vat.</summary>
public static class StoredLedger
{
    /// <summary>More sessions than a vat sees in its life.</summary>
    private const int MostSessions = 10_000;

    /// <summary>The warmth of a vat is summed up in means of so long, in one read: a ledger asks for it between any two entries.</summary>
    private static readonly TimeSpan Quarter = TimeSpan.FromMinutes(15);

    /// <summary>No break matters to a mean.</summary>
    private static readonly TimeSpan Gap = TimeSpan.FromHours(1);

    /// <summary>Reads it. The readings are read while the ledger is made, so the reader is needed until then.</summary>
    public static LedgerFacts Read(StoreReader reader, VatDefinition vat, DisplayUnits units)
    {
        var probes = vat.Probes.ToLookup(probe => probe.Quantity, probe => probe.Id);
        var (first, last) = reader.Span(vat.Id) ?? (DateTimeOffset.MaxValue, DateTimeOffset.MinValue);
        var entries = EntryTable.Between(reader, vat.Id, DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue);
        var warmth = new Lazy<List<MeasurementColumn>>(() => Warmth(TimeMath.Max(first, entries.Select(entry => entry.At.Utc).Append(last).Min().AddDays(-1))));
        return new(
            vat,
            entries,
            SessionTable.Newest(reader, vat.Id, MostSessions).Where(session => session.Details.YarnGrams is > 0).ToDictionary(session => session.Id, session => session.Details.YarnGrams!.Value),
            units,
            (quantity, from, to) => to < first || from > last ? null : Mean(quantity == Quantity.Temperature ? Overlap(warmth.Value, from, to) : Columns(quantity, from, to, 1)));

        List<MeasurementColumn> Warmth(DateTimeOffset from) => [.. Columns(Quantity.Temperature, from, last + Quarter, 1 + (int)((last - from) / Quarter)).OrderBy(column => column.Start)];

        IEnumerable<MeasurementColumn> Columns(Quantity quantity, DateTimeOffset from, DateTimeOffset to, int columns) =>
            probes[quantity].SelectMany(probe => reader.Columns(vat.Id, probe, from, to, columns, Gap));
    }

    /// <summary>Those of columns in order of time that have a part in a stretch.</summary>
    private static IEnumerable<MeasurementColumn> Overlap(List<MeasurementColumn> columns, DateTimeOffset from, DateTimeOffset to)
    {
        var (low, high) = (0, columns.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = columns[middle].End <= from ? (middle + 1, high) : (low, middle);
        }

        return columns.Skip(low).TakeWhile(column => column.Start < to);
    }

    private static double? Mean(IEnumerable<MeasurementColumn> columns)
    {
        var (sum, count) = columns.Aggregate((Sum: 0.0, Count: 0L), (sum, column) => (sum.Sum + column.Count * column.Mean, sum.Count + column.Count));
        return count > 0 ? sum / count : null;
    }
}
