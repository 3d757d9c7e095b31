using VatWatch.Alarms;
using VatWatch.Alarms.Figures;
using VatWatch.Alarms.Journal;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Store;
using VatWatch.Store.Disk;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>Reads alarms, journal and figures from the store, with a daemon on it or without, and prints them.</summary>
internal static class AlarmListing
{
    private static readonly TimeSpan Usual = TimeSpan.FromHours(24);

    public static int Run(AlarmQuestion question, ConfiguredStore store, VerbConsole console)
    {
        var (from, to) = TimeText.ReadSpan(question.From, question.To, store.Watch.Zone);
        using var reader = StoreReader.OpenFolder(store.Folder);
        var now = Present(reader);
        var end = to ?? now;
        var start = from ?? end - Usual;
        if (end < start)
        {
            return console.Fail(ExitCode.WrongUsage, $"--to is {end:u}, before --from {start:u}; wanted a later time.");
        }

        var report = new AlarmReport(
            StoreBeside.IsHeld(store.Folder) ? null : store.Folder,
            [.. AlarmJournal.Current(reader).Where(status => status.State != AlarmState.Normal)],
            question.WantsJournal ? AlarmJournal.Changes(reader, null, start, end) : null,
            question.WantsWeek ? AlarmWeeks.Read(reader, end, 1)[0] : null);
        var print = new AlarmPrint(store.Watch, console.Out);
        if (question.AsJson)
        {
            print.Json(report);
        }
        else
        {
            print.Text(report);
        }

        return ExitCode.Success;
    }

    /// <summary>The present by the vat's clock: a fast simulation is ahead of the wall. One tick on, so that the newest line is within.</summary>
    private static DateTimeOffset Present(StoreReader reader)
    {
        var now = TimeProvider.System.GetUtcNow();
        var newest = AlarmJournal.Newest(reader, null, null, 1).Select(change => change.Stamp.Utc).Append(reader.LastUtc() ?? now).Max();
        return (newest > now ? newest : now).AddTicks(1);
    }
}

/// <summary>What the verb was asked to list.</summary>
/// <param name="From">Its start, as typed.</param>
/// <param name="To">Its end, as typed.</param>
/// <param name="WantsWeek">The figures of seven days too.</param>
/// <param name="AsJson">For other programs.</param>
internal sealed record AlarmQuestion(bool WantsJournal, string? From, string? To, bool WantsWeek, bool AsJson);
