using System.CommandLine;
using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary><c>vatwatch alarms</c>: what stands, the journal and the figures, read from the store; below it what may be done, through the running daemon's interface.</summary>
internal static class AlarmsVerb
{
    public static Command Create(VerbConsole console)
    {
        var journal = new Option<bool>("--journal") { Description = "The journal too; of the last 24 h unless --from and --to say otherwise." };
        var from = new Option<string?>("--from") { Description = "Start of the journal, such as 2026-03-01T20:00Z or '2026-03-01 20:00' (time of the site).", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End of the journal; default: now.", HelpName = "TIME" };
        var week = new Option<bool>("--week") { Description = "How the alarms did in the last seven days: how many, how often, how fast they were acknowledged." };
        var (store, json) = (new ConfiguredStoreOptions(console), CommonOptions.Json());
        var command = new Command("alarms", "List the alarms, their journal and figures; acknowledge, shelve or note.") { journal, from, to, week, store, json };
        command.SetAction(parsed => AlarmListing.Run(
            new(parsed.GetValue(journal), parsed.GetValue(from), parsed.GetValue(to), parsed.GetValue(week), parsed.GetValue(json)),
            store.Of(parsed),
            console));
        foreach (var kind in Enum.GetValues<AlarmActKind>())
        {
            command.Subcommands.Add(Act(kind, console));
        }

        return command;
    }

    private static Command Act(AlarmActKind kind, VerbConsole console)
    {
        var vat = new Option<string>("--vat") { Description = "The vat, or 'daemon' for alarms of VatWatch itself.", HelpName = "ID", Required = true };
        var isNote = kind == AlarmActKind.Note;
        var alarm = new Option<string?>("--alarm") { Description = isNote ? "The alarm; without it the note is about the vat." : "The alarm, such as overheat.", HelpName = "NAME", Required = !isNote };
        var by = new Option<string>("--by") { Description = "Your name, for the journal.", HelpName = "NAME", Required = true };
        var minutes = new Option<double?>("--minutes") { Description = "How long to shelve it; the alarm's settings may cut it down.", HelpName = "N", Required = true };
        var text = isNote
            ? new Option<string?>("--text") { Description = "The note.", HelpName = "WORDS", Required = true }
            : new Option<string?>("--reason") { Description = "Why.", HelpName = "WORDS", Required = true };
        var store = new ConfiguredStoreOptions(console);
        var command = new Command(kind.Word(), Describe(kind)) { vat, alarm, by, store };
        if (kind == AlarmActKind.Shelve)
        {
            command.Options.Add(minutes);
        }

        if (kind is AlarmActKind.Shelve or AlarmActKind.TakeOutOfService or AlarmActKind.Note)
        {
            command.Options.Add(text);
        }

        command.SetAction((parsed, cancel) => AlarmActing.RunAsync(
            new(kind, parsed.GetValue(vat), parsed.GetValue(alarm), parsed.GetValue(by), "verb")
            {
                Minutes = kind == AlarmActKind.Shelve ? parsed.GetValue(minutes) : null,
                Text = command.Options.Contains(text) ? parsed.GetValue(text) : null,
            },
            store.Of(parsed),
            console,
            cancel));
        return command;
    }

    private static string Describe(AlarmActKind kind) => kind switch
    {
        AlarmActKind.Acknowledge => "Say that somebody has seen an alarm.",
        AlarmActKind.Shelve => "Set an alarm aside for a time.",
        AlarmActKind.Unshelve => "Take an alarm off the shelf before its time.",
        AlarmActKind.TakeOutOfService => "Take an alarm out of service until somebody returns it.",
        AlarmActKind.ReturnToService => "Put an alarm back into service.",
        AlarmActKind.Reset => "End a latched alarm that was acknowledged.",
        _ => "Write a note into the journal, beside an alarm or about the vat.",
    };
}
