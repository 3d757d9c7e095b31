using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Plans.Warm;

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
internal sealed record PlannedVat(VatDefinition Vat, StoredVat Known, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static PlannedVat? Find(string wanted, string? path, string? data, TimeProvider time, VerbConsole console, out int code) =>
        KnownVat.Find(wanted, path, data, console, out code) is { } vat
            && vat.Read(reader => reader is null ? StoredVat.Unknown : StoredVat.Read(reader, vat.Vat, time.GetUtcNow()), console, out code) is { } known
            ? new(vat.Vat, known, vat.Units, vat.Zone)
            : null;
}
