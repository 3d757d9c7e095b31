using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary>The vat a plan is for, and what the store tells of it; without a store it is a vat of which nothing is known.</summary>
internal sealed record PlannedVat(VatDefinition Vat, StoredVat Known, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static PlannedVat? Find(string wanted, string? path, string? data, TimeProvider time, VerbConsole console, out int code) =>
        KnownVat.Find(wanted, path, data, console, out code) is { } vat
            && vat.Read(reader => reader is null ? StoredVat.Unknown : StoredVat.Read(reader, vat.Vat, time.GetUtcNow()), console, out code) is { } known
            ? new(vat.Vat, known, vat.Units, vat.Zone)
            : null;
}
