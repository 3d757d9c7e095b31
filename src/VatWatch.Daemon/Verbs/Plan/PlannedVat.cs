using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Plans.Warm;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary>The vat a plan is for, and what the store tells of it; without a store it is a vat of which nothing is known.</summary>
internal sealed record PlannedVat(VatDefinition Vat, StoredVat Known, VatBalance Contents, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static PlannedVat? Find(string wanted, string? path, string? data, TimeProvider time, VerbConsole console, out int code) =>
        KnownVat.Find(wanted, path, data, console, out code) is { } vat
            && vat.Read(reader => Tuple.Create(Known(vat, reader, time.GetUtcNow()), Contents(vat, reader, time.GetUtcNow())), console, out code) is { } read
            ? new(vat.Vat, read.Item1, read.Item2, vat.Units, vat.Zone)
            : null;

    private static StoredVat Known(KnownVat vat, StoreReader? reader, DateTimeOffset now) => reader is null ? StoredVat.Unknown : StoredVat.Read(reader, vat.Vat, now);

    private static VatBalance Contents(KnownVat vat, StoreReader? reader, DateTimeOffset now) =>
        VatLedger.At(reader is null ? LedgerFacts.Empty(vat.Vat, vat.Units) : StoredLedger.Read(reader, vat.Vat, vat.Units), now);
}
