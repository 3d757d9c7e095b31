using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;

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
