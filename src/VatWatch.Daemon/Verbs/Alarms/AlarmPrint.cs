using System.Text.Json.Serialization;
using System.Text.Json;
using VatWatch.Alarms.Figures;
using VatWatch.Alarms.Journal;
using VatWatch.Alarms;
using VatWatch.Daemon.Web.Api;
using VatWatch.Pipeline.Configuration;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>Writes alarms, journal and figures for people, with the times of the site, or as JSON.</summary>
internal sealed class AlarmPrint(WatchConfiguration watch, TextWriter output)
{
    public void Json(AlarmReport report) => output.WriteLine(JsonSerializer.Serialize(
        new AlarmsDocument(
            report.LeftFolder is null,
            [.. report.Alarms.Select(alarm => AlarmDocument.Of(alarm, watch.Units))],
            report.Journal?.Select(change => AlarmChangeDocument.Of(change, watch.Units)).ToList(),
            report.Week is { } week ? AlarmWeekReply.Of(week) : null),
        AlarmJson.Default.AlarmsDocument));

    public void Text(AlarmReport report)
    {
        if (report.LeftFolder is { } folder)
        {
            output.WriteLine($"No VatWatch runs on '{folder}': this is how things stood when it stopped.");
        }

        Standing(report.Alarms);
        if (report.Journal is { } journal)
        {
            output.WriteLine();
            output.WriteLine(journal.Count == 0 ? "The journal has nothing of that time." : $"Journal, times of {watch.Zone.Id}:");
            foreach (var change in journal)
            {
                output.WriteLine($"  {Moment(change.Stamp.Utc)}{(change.Stamp.UtcTrusted ? "" : " (clock not trusted)")}  {change.Status.Vat} {change.Status.Alarm}: {What(change)}");
            }
        }

        if (report.Week is { } week)
        {
            Figures(week);
        }
    }

    private void Standing(IReadOnlyList<AlarmStatus> alarms)
    {
        var active = alarms.Where(status => status.IsActive).OrderByDescending(status => status.Priority).ThenBy(status => status.Since.Utc).ToList();
        output.WriteLine(active.Count == 0 ? "No alarm stands." : "Alarms:");
        active.ForEach(Write);
        var aside = alarms.Where(status => !status.IsActive).ToList();
        if (aside.Count > 0)
        {
            output.WriteLine("Set aside:");
            aside.ForEach(Write);
        }
    }

    private void Write(AlarmStatus status)
    {
        var seen = status.AcknowledgedBy is { } who ? $" by {who}" : "";
        output.WriteLine($"  {status.Priority.Word()}  {status.Vat} {status.Alarm}  {status.State.Word()}{seen} since {Moment(status.Since.Utc)}");
        output.WriteLine($"    {status.Text.In(watch.Units)}");
        if (status is { IsActive: true, Stands: true })
        {
            output.WriteLine($"    {status.Action}");
        }

        if (status.SetAside is { } aside)
        {
            output.WriteLine($"    by {aside.By ?? "VatWatch"} at {Moment(aside.At)}{(aside.Until is { } until ? $", until {Moment(until)}" : "")}: {aside.Because}");
        }
    }

    private string What(AlarmChange change)
    {
        var by = change.By is { } who ? $" by {who} ({change.Via ?? "unknown way"})" : "";
        return change.Note is { } note
            ? $"note{by}: {note}"
            : $"{(change.Before == change.Status.State ? "told again" : change.Status.State.Word())}{by}. {change.Status.Text.In(watch.Units)}";
    }

    private void Figures(AlarmWeek week)
    {
        output.WriteLine();
        output.WriteLine($"From {Moment(week.From)} to {Moment(week.To)}:");
        foreach (var (measure, value, wanted) in AlarmWeekText.Rows(week, NameOf))
        {
            output.WriteLine($"  {measure,-20} {value}  (good: {wanted})");
        }
    }

    private string NameOf(VatId vat) => watch.Vats.FirstOrDefault(one => one.Definition.Id == vat)?.Definition.Name ?? (vat == VatId.Daemon ? "VatWatch itself" : vat.Value);

    private string Moment(DateTimeOffset utc) => WallTime.Clock(utc, watch.Zone);
}

/// <summary>What the verb prints.</summary>
/// <param name="LeftFolder">The data folder when no daemon runs on it; null when one does.</param>
/// <param name="Alarms">Every alarm that is not in normal.</param>
/// <param name="Journal">The changes asked for; null when not asked for.</param>
/// <param name="Week">The figures; null when not asked for.</param>
internal sealed record AlarmReport(string? LeftFolder, IReadOnlyList<AlarmStatus> Alarms, IReadOnlyList<AlarmChange>? Journal, AlarmWeek? Week);

/// <summary>What <c>vatwatch alarms --json</c> writes.</summary>
/// <param name="DaemonRuns">Whether a daemon uses the folder; if not, this is how things stood when it stopped.</param>
/// <param name="Alarms">Every alarm that is not in normal, as <c>/api/alarms</c> gives it.</param>
/// <param name="Journal">The changes asked for; null when not asked for.</param>
/// <param name="Week">The figures; null when not asked for.</param>
internal sealed record AlarmsDocument(bool DaemonRuns, IReadOnlyList<AlarmDocument> Alarms, IReadOnlyList<AlarmChangeDocument>? Journal, AlarmWeekReply? Week);

/// <summary>What <c>vatwatch alarms --json</c> writes, serialised by generated code.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, WriteIndented = true)]
[JsonSerializable(typeof(AlarmsDocument))]
internal sealed partial class AlarmJson : JsonSerializerContext;
