using VatWatch.Science.Dosing;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>What a ledger is made from. Immutable.</summary>
/// <param name="Entries">Its log book, in any order, withdrawn entries among them.</param>
/// <param name="Goods">Dry weight of the goods of each session where it was said, g.</param>
/// <param name="Units">The dyer's units, for sentences.</param>
/// <param name="Mean">Mean of what a kind of probe measured from one moment to another, in its unit; null where nothing was measured.</param>
public sealed record LedgerFacts(
    VatDefinition Vat,
    IReadOnlyCollection<SessionEntry> Entries,
    IReadOnlyDictionary<SessionId, double> Goods,
    DisplayUnits Units,
    Func<Quantity, DateTimeOffset, DateTimeOffset, double?> Mean)
{
    /// <summary>A vat of which nothing is written.</summary>
    public static LedgerFacts Empty(VatDefinition vat, DisplayUnits units) => new(vat, [], new Dictionary<SessionId, double>(), units, (_, _, _) => null);

    /// <summary>Mean temperature of the liquor from one moment to another, °C; null where nothing was measured.</summary>
    public double? WarmthC(DateTimeOffset from, DateTimeOffset to) => Mean(Quantity.Temperature, from, to);

    /// <summary>The vat's reducing agent; null for a ferment, which is not weighed.</summary>
    public ReducerKind? Reducer => ReducerKind.All.FirstOrDefault(kind => kind.Name == Vat.Reducer.Word());

    /// <summary>What stands, in order of time. Entries of one moment are put in an order of their own, so that it does not matter which was written first.</summary>
    public IReadOnlyList<SessionEntry> Standing(DateTimeOffset until) =>
    [
        .. Entries.Where(entry => entry.Withdrawn is null && entry.At.Utc <= until)
            .OrderBy(entry => entry.At.Utc).ThenBy(entry => entry.Kind != EntryKind.MadeAnew).ThenBy(entry => entry.Kind != EntryKind.DrawnOff).ThenBy(entry => entry.Kind).ThenBy(entry => entry.Material)
            .ThenBy(entry => entry.Reading).ThenBy(entry => entry.Sign).ThenBy(entry => entry.Amount).ThenBy(entry => entry.Strength),
    ];
}
