using System.CommandLine;
using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Verbs.Ledger;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary><c>vatwatch plan</c>: when to heat, and how a day's batches go. Reads the store; the daemon may be running.</summary>
internal static class PlanVerb
{
    public static Command Create(VerbConsole console) => new("plan", "Foresee a warm-up or a day's batches from what was learned of a vat. A forecast, never leave to let a heater run unattended.")
    {
        PlanWarmVerb.Create(console),
        PlanDayVerb.Create(console),
    };
}

/// <summary>What every plan is asked with.</summary>
/// <param name="from">What stands for the liquor's temperature when it is not said.</param>
internal sealed class PlanOptions(string from)
{
    public Option<string> Vat { get; } = new("--vat") { Description = "The vat.", HelpName = "ID", Required = true };

    public Option<string?> From { get; } = new("--from") { Description = from, HelpName = "TEMPERATURE" };

    public Option<string?> Heater { get; } = new("--heater") { Description = "Power of the heater, such as \"1500 W\"; as learned or configured when not said.", HelpName = "POWER" };

    public Option<bool> Json { get; } = CommonOptions.Json();

    private Option<string?> Ics { get; } = new("--ics") { Description = "Calendar file to write (RFC 5545).", HelpName = "FILE" };

    /// <summary>Writes a calendar where one is asked for.</summary>
    /// <exception cref="VerbEndedException">It cannot be written.</exception>
    public void WriteCalendar(ParseResult parsed, CalendarFile calendar)
    {
        try
        {
            if (parsed.GetValue(Ics) is { } file)
            {
                File.WriteAllText(file, calendar.ToString());
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new VerbEndedException(ExitCode.Failure, $"the calendar could not be written to '{parsed.GetValue(Ics)}': {e.Message}");
        }
    }

    /// <summary>A plan's verb with these options after its own; <paramref name="run"/> gets the vat that was found.</summary>
    public Command Command(string name, string description, IReadOnlyList<Option> own, Func<ParseResult, PlannedVat, int> run, VerbConsole console)
    {
        var command = new Command(name, description) { Vat };
        foreach (var option in own.Concat([From, Heater, Ics]))
        {
            command.Options.Add(option);
        }

        var store = new ConfiguredStoreOptions(console);
        store.AddTo(command);
        command.Options.Add(Json);
        command.SetAction(parsed => run(parsed, PlannedVat.Find(parsed.GetValue(Vat)!, store.Of(parsed))));
        return command;
    }
}

/// <summary>The vat a plan is for, and what the store tells of it; without a store it is a vat of which nothing is known.</summary>
internal sealed record PlannedVat(VatDefinition Vat, StoredVat Known, VatBalance Contents, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up.</summary>
    /// <exception cref="VerbEndedException">There is none.</exception>
    public static PlannedVat Find(string wanted, ConfiguredStore store)
    {
        var (vat, now) = (KnownVat.Find(wanted, store), TimeProvider.System.GetUtcNow());
        return vat.Read(reader => new PlannedVat(vat.Vat, KnownOf(vat.Vat, reader, now), VatLedger.At(LedgerCommand.Facts(vat, reader), now), vat.Units, vat.Zone));
    }

    private static StoredVat KnownOf(VatDefinition vat, StoreReader? reader, DateTimeOffset now)
    {
        if (reader is null)
        {
            return StoredVat.Unknown;
        }

        var dips = SeenDips.Read(reader, vat, now);
        return StoredVat.Read(reader, vat, now) with { Dip = dips.Length, Recovery = dips.Recovery };
    }
}
