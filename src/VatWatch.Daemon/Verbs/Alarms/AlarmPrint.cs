using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Alarms.Figures;
using VatWatch.Daemon.Web.Api;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>Writes alarms, journal and figures for people, with local times, or as JSON.</summary>
internal static class AlarmPrint
{
    public static void Json(AlarmReport report, DisplayUnits units, TextWriter output) => output.WriteLine(JsonSerializer.Serialize(
        new AlarmsDocument(
            report.LeftFolder is null,
            [.. report.Alarms.Select(alarm => AlarmDocument.Of(alarm, units))],
            report.Journal?.Select(change => AlarmChangeDocument.Of(change, units)).ToList(),
            report.Week is { } week ? AlarmWeekReply.Of(week) : null),
        AlarmJson.Default.AlarmsDocument));

    public static void Text(AlarmReport report, DisplayUnits units, IReadOnlyDictionary<VatId, string> names, TextWriter output)
    {
        if (report.LeftFolder is { } folder)
        {
            output.WriteLine($"No VatWatch runs on '{folder}': this is how things stood when it stopped.");
        }

        Standing(report.Alarms, units, output);
        if (report.Journal is { } journal)
        {
            output.WriteLine();
            output.WriteLine(journal.Count == 0 ? "The journal has nothing of that time." : "Journal:");
            foreach (var change in journal)
            {
                output.WriteLine($"  {Moment(change.Stamp.Utc)}{(change.Stamp.UtcTrusted ? "" : " (clock not trusted)")}  {change.Status.Vat} {change.Status.Alarm}: {What(change, units)}");
            }
        }

        if (report.Week is { } week)
        {
            Figures(week, vat => names.GetValueOrDefault(vat, vat == VatId.Daemon ? "VatWatch itself" : vat.Value), output);
        }
    }

    private static void Standing(IReadOnlyList<AlarmStatus> alarms, DisplayUnits units, TextWriter output)
    {
        var active = alarms.Where(status => status.IsActive).OrderByDescending(status => status.Priority).ThenBy(status => status.Since.Utc).ToList();
        output.WriteLine(active.Count == 0 ? "No alarm stands." : "Alarms:");
        active.ForEach(status => Write(status, units, output));
        var aside = alarms.Where(status => !status.IsActive).ToList();
        if (aside.Count > 0)
        {
            output.WriteLine("Set aside:");
            aside.ForEach(status => Write(status, units, output));
        }
    }

    private static void Write(AlarmStatus status, DisplayUnits units, TextWriter output)
    {
        var seen = status.AcknowledgedBy is { } who ? $" by {who}" : "";
        output.WriteLine($"  {status.Priority.Word()}  {status.Vat} {status.Alarm}  {status.State.Word()}{seen} since {Moment(status.Since.Utc)}");
        output.WriteLine($"    {status.Text.In(units)}");
        if (status is { IsActive: true, Stands: true })
        {
            output.WriteLine($"    {status.Action}");
        }

        if (status.SetAside is { } aside)
        {
            output.WriteLine($"    by {aside.By ?? "VatWatch"} at {Moment(aside.At)}{(aside.Until is { } until ? $", until {Moment(until)}" : "")}: {aside.Because}");
        }
    }

    private static string What(AlarmChange change, DisplayUnits units)
    {
        var by = change.By is { } who ? $" by {who} ({change.Via ?? "unknown way"})" : "";
        return change.Note is { } note
            ? $"note{by}: {note}"
            : $"{(change.Before == change.Status.State ? "told again" : change.Status.State.Word())}{by}. {change.Status.Text.In(units)}";
    }

    private static void Figures(AlarmWeek week, Func<VatId, string> nameOf, TextWriter output)
    {
        output.WriteLine();
        output.WriteLine($"From {Moment(week.From)} to {Moment(week.To)}:");
        foreach (var (measure, value, wanted) in AlarmWeekText.Rows(week, nameOf))
        {
            output.WriteLine($"  {measure,-20} {value}  (good: {wanted})");
        }
    }

    private static string Moment(DateTimeOffset utc) => utc.ToLocalTime().ToString("yyyy-MM-dd HH:mm:ss");
}
