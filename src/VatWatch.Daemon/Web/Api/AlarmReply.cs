using VatWatch.Alarms;

namespace VatWatch.Daemon.Web.Api;

/// <summary>One alarm as programs get it; the members of the alarm topic and how it was set aside.</summary>
/// <param name="Alarm">Name within the vat.</param>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="State">State of the lifecycle.</param>
/// <param name="Priority">low, medium, high or critical.</param>
/// <param name="Since">When it began, UTC.</param>
/// <param name="Value">What stands against the limit.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="Text">One sentence.</param>
/// <param name="Action">What to do.</param>
/// <param name="AcknowledgedBy">Who has seen it.</param>
/// <param name="AcknowledgedAt">When.</param>
/// <param name="SetAsideBy">Who shelved it or took it out of service; null also when the daemon did.</param>
/// <param name="SetAsideBecause">Why.</param>
/// <param name="ShelvedUntil">When it comes off the shelf by itself, UTC.</param>
internal sealed record AlarmReply(
    string Alarm, string Vat, string State, string Priority, DateTimeOffset Since, double? Value, double? Limit, string Unit,
    string Text, string Action, string? AcknowledgedBy, DateTimeOffset? AcknowledgedAt,
    string? SetAsideBy, string? SetAsideBecause, DateTimeOffset? ShelvedUntil)
{
    internal static AlarmReply Of(AlarmStatus status, DisplayUnits units)
    {
        var (text, value, limit, unit) = status.In(units);
        return new(
        status.Alarm.Value,
        status.Vat.Value,
        status.State.Word(),
        status.Priority.Word(),
        status.Since.Utc,
        value,
        limit,
        unit,
        text,
        status.Action,
        status.AcknowledgedBy,
        status.AcknowledgedAt,
        status.SetAside?.By,
        status.SetAside?.Because,
        status.SetAside?.Until);
    }
}
