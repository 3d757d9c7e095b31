using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Plans.Warm;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary><c>vatwatch plan</c>: when to heat, and how a day's batches go. Reads the store; the daemon may be running.</summary>
internal static class PlanVerb
{
    public static Command Create(VerbConsole console) => Create(console, TimeProvider.System);

    public static Command Create(VerbConsole console, TimeProvider time) => new("plan", "Foresee a warm-up or a day's batches from what was learned of a vat. A forecast, never leave to let a heater run unattended.")
    {
        PlanWarmVerb.Create(console, time),
        PlanDayVerb.Create(console, time),
    };
}

/// <summary>The vat a plan is for, and what the store tells of it; without a store it is a vat of which nothing is known.</summary>
internal sealed record PlannedVat(VatDefinition Vat, StoredVat Known, VatBalance Contents, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static PlannedVat? Find(string wanted, string? path, string? data, TimeProvider time, VerbConsole console, out int code) =>
        KnownVat.Find(wanted, path, data, console, out code) is { } vat
            && vat.Read(reader => Tuple.Create(KnownOf(vat, reader, time.GetUtcNow()), ContentsOf(vat, reader, time.GetUtcNow())), console, out code) is { } read
            ? new(vat.Vat, read.Item1, read.Item2, vat.Units, vat.Zone)
            : null;

    private static StoredVat KnownOf(KnownVat vat, StoreReader? reader, DateTimeOffset now) => reader is null ? StoredVat.Unknown : StoredVat.Read(reader, vat.Vat, now);

    private static VatBalance ContentsOf(KnownVat vat, StoreReader? reader, DateTimeOffset now) =>
        VatLedger.At(reader is null ? LedgerFacts.Empty(vat.Vat, vat.Units) : StoredLedger.Read(reader, vat.Vat, vat.Units), now);
}
