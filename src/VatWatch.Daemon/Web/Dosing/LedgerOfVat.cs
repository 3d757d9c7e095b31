using VatWatch.Ledger;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>A vat by its probes and its log book.</summary>
/// <param name="Now">What its probes show.</param>
/// <param name="Balance">Its ledger.</param>
internal sealed record LedgerOfVat(WeakVat Now, VatBalance Balance)
{
    /// <summary>Reads it.</summary>
    public static LedgerOfVat Read(StoreReader reader, VatDefinition vat, DisplayUnits units, DateTimeOffset now)
    {
        var facts = StoredLedger.Read(reader, vat, units);
        return new(StoredWeakVat.Read(reader, facts, now), VatLedger.At(facts, now));
    }
}
