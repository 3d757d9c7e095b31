using VatWatch.Ledger;
using VatWatch.Store;

namespace VatWatch.Daemon.Dosing;

/// <summary>The vat that a dose is for, as its log book and its probes know it.</summary>
/// <param name="Now">What its probes show.</param>
/// <param name="Balance">Its ledger.</param>
internal sealed record DosedVat(WeakVat Now, VatBalance Balance)
{
    /// <summary>Its liquor as a person writes it.</summary>
    public string Volume => $"{Balance.Liquor.Value:0.###} L";

    /// <summary>Its temperature as a person writes it; null where it is not known.</summary>
    public string? Temperature => Now.TemperatureC is { } celsius ? $"{celsius:0.##} °C" : null;

    /// <summary>Reads it.</summary>
    /// <param name="reader">The store; null where there is none.</param>
    /// <param name="facts">Its log book.</param>
    /// <param name="now">Now, UTC.</param>
    public static DosedVat Read(StoreReader? reader, LedgerFacts facts, DateTimeOffset now) => new(StoredWeakVat.Read(reader, facts, now), VatLedger.At(facts, now));
}
