using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;
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

/// <summary>What every plan is asked with.</summary>
/// <param name="from">What stands for the liquor's temperature when it is not said.</param>
internal sealed class PlanOptions(string from)
{
    public Option<string> Vat { get; } = new("--vat") { Description = "The vat.", HelpName = "ID", Required = true };

    public Option<string?> From { get; } = new("--from") { Description = from, HelpName = "TEMPERATURE" };

    public Option<string?> Heater { get; } = new("--heater") { Description = "Power of the heater, such as \"1500 W\"; as learned or configured when not said.", HelpName = "POWER" };

    public Option<bool> Json { get; } = CommonOptions.Json();

    private Option<string?> Ics { get; } = new("--ics") { Description = "Calendar file to write (RFC 5545).", HelpName = "FILE" };

    private Option<string?> Config { get; } = CommonOptions.Config();

    private Option<string?> Data { get; } = CommonOptions.Data();

    /// <summary>Writes a calendar where one is asked for; false, and said so, when it cannot be written.</summary>
    public bool TryWriteCalendar(ParseResult parsed, Func<string> calendar, VerbConsole console)
    {
        if (parsed.GetValue(Ics) is not { } file)
        {
            return true;
        }

        try
        {
            File.WriteAllText(file, calendar());
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            console.Fail(ExitCode.Failure, $"the calendar could not be written to '{file}': {e.Message}");
            return false;
        }
    }

    /// <summary>A plan's verb with these options after its own; <paramref name="run"/> gets the vat that was found.</summary>
    public Command Command(string name, string description, IReadOnlyList<Option> own, Func<ParseResult, PlannedVat, int> run, TimeProvider time, VerbConsole console)
    {
        var command = new Command(name, description) { Vat };
        foreach (var option in own.Concat([From, Heater, Ics, Config, Data, Json]))
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed => PlannedVat.Find(parsed.GetValue(Vat)!, parsed.GetValue(Config), parsed.GetValue(Data), time, console, out var code) is { } found ? run(parsed, found) : code);
        return command;
    }
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

    private static StoredVat KnownOf(KnownVat vat, StoreReader? reader, DateTimeOffset now)
    {
        if (reader is null)
        {
            return StoredVat.Unknown;
        }

        var dips = SeenDips.Read(reader, vat.Vat, now);
        return StoredVat.Read(reader, vat.Vat, now) with { Dip = dips.Length, Recovery = dips.Recovery };
    }

    private static VatBalance ContentsOf(KnownVat vat, StoreReader? reader, DateTimeOffset now) =>
        VatLedger.At(reader is null ? LedgerFacts.Empty(vat.Vat, vat.Units) : StoredLedger.Read(reader, vat.Vat, vat.Units), now);
}
