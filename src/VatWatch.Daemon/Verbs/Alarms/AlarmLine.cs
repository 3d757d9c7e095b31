using VatWatch.Alarms;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>One line of the journal as JSON.</summary>
/// <param name="Time">UTC.</param>
/// <param name="ClockTrusted">Whether the time is to be believed.</param>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Alarm">The alarm; "note" for a note about the vat.</param>
/// <param name="Before">State it left.</param>
/// <param name="State">State it entered.</param>
/// <param name="Priority">Priority.</param>
/// <param name="Value">What stands against the limit.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="Text">One sentence.</param>
/// <param name="By">Who; null for the daemon.</param>
/// <param name="Via">mqtt, page, api or verb; null for the daemon.</param>
/// <param name="Reason">Why it was set aside; null when it was not.</param>
/// <param name="Note">What somebody wrote; null for a change.</param>
internal sealed record AlarmLine(
    DateTimeOffset Time, bool ClockTrusted, string Vat, string Alarm, string Before, string State, string Priority, double? Value, double? Limit, string Unit,
    string Text, string? By, string? Via, string? Reason, string? Note)
{
    public static AlarmLine Of(AlarmChange change, DisplayUnits units)
    {
        var (text, value, limit, unit) = change.Status.In(units);
        return new(
        change.Stamp.Utc,
        change.Stamp.UtcTrusted,
        change.Status.Vat.Value,
        change.Status.Alarm.Value,
        change.Before.Word(),
        change.Status.State.Word(),
        change.Status.Priority.Word(),
        value,
        limit,
        unit,
        text,
        change.By,
        change.Via,
        change.Status.SetAside?.Because,
        change.Note);
    }
}
