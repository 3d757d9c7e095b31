namespace VatWatch.Alarms.Journal;

/// <summary>One alarm as topics, webhooks, the HTTP interface and <c>vatwatch alarms --json</c> write it. What does not apply is null.</summary>
/// <param name="Alarm">Name within the vat.</param>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="State">State of the lifecycle.</param>
/// <param name="Priority">How much it matters.</param>
/// <param name="Since">When it began, UTC.</param>
/// <param name="Value">What stands against the limit.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="Text">One sentence.</param>
/// <param name="Action">What to do.</param>
/// <param name="AcknowledgedBy">Who acknowledged it.</param>
/// <param name="AcknowledgedAt">When, UTC.</param>
/// <param name="SetAsideBy">Who shelved it or took it out of service; null also when the daemon did.</param>
/// <param name="SetAsideBecause">Why.</param>
/// <param name="ShelvedUntil">When it comes off the shelf by itself, UTC.</param>
/// <param name="OnDisk">False while it is held in memory because the disk does not take it.</param>
public sealed record AlarmDocument(
    string Alarm, string Vat, AlarmState State, AlarmPriority Priority, DateTimeOffset Since, double? Value, double? Limit, string? Unit,
    string Text, string Action, string? AcknowledgedBy, DateTimeOffset? AcknowledgedAt,
    string? SetAsideBy, string? SetAsideBecause, DateTimeOffset? ShelvedUntil, bool OnDisk)
{
    /// <summary>An alarm as it stands, for a reader of <paramref name="units"/>.</summary>
    public static AlarmDocument Of(AlarmStatus status, DisplayUnits units)
    {
        var (text, value, limit, unit) = status.In(units);
        return new(
            status.Alarm.Value,
            status.Vat.Value,
            status.State,
            status.Priority,
            status.Since.Utc,
            value,
            limit,
            UnitOrNull(unit),
            text,
            status.Action,
            status.AcknowledgedBy,
            status.AcknowledgedAt,
            status.SetAside?.By,
            status.SetAside?.Because,
            status.SetAside?.Until,
            !status.IsInMemory);
    }

    internal static string? UnitOrNull(string unit) => unit.Length == 0 ? null : unit;
}

/// <summary>One line of the alarm journal for other programs. What does not apply is null.</summary>
/// <param name="Time">UTC.</param>
/// <param name="ClockTrusted">Whether the time is to be believed.</param>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Alarm">The alarm; "note" for a note about the vat.</param>
/// <param name="Before">State it left.</param>
/// <param name="State">State it entered.</param>
/// <param name="Priority">How much it matters.</param>
/// <param name="Value">What stood against the limit.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="Text">One sentence.</param>
/// <param name="By">Who; null for the daemon.</param>
/// <param name="Via">mqtt, page, api or verb; null for the daemon.</param>
/// <param name="Reason">Why it was set aside.</param>
/// <param name="Note">What somebody wrote; null for a change.</param>
public sealed record AlarmChangeDocument(
    DateTimeOffset Time, bool ClockTrusted, string Vat, string Alarm, AlarmState Before, AlarmState State, AlarmPriority Priority,
    double? Value, double? Limit, string? Unit, string Text, string? By, string? Via, string? Reason, string? Note)
{
    /// <summary>A change, for a reader of <paramref name="units"/>.</summary>
    public static AlarmChangeDocument Of(AlarmChange change, DisplayUnits units)
    {
        var (text, value, limit, unit) = change.Status.In(units);
        return new(
            change.Stamp.Utc,
            change.Stamp.UtcTrusted,
            change.Status.Vat.Value,
            change.Status.Alarm.Value,
            change.Before,
            change.Status.State,
            change.Status.Priority,
            value,
            limit,
            AlarmDocument.UnitOrNull(unit),
            text,
            change.By,
            change.Via,
            change.Status.SetAside?.Because,
            change.Note);
    }
}
