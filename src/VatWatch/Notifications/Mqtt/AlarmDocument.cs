using VatWatch.Alarms;

namespace VatWatch.Notifications.Mqtt;

/// <summary>An alarm as its topic shows it. Value and limit are in <c>unit</c>; what does not apply is null.</summary>
internal sealed record AlarmDocument(
    string Alarm,
    string Vat,
    string State,
    string Priority,
    string Since,
    double? Value,
    double? Limit,
    string? Unit,
    string Text,
    string Action,
    string? AcknowledgedBy,
    string? AcknowledgedAt)
{
    /// <summary>Turns <paramref name="status"/> into what is written for a reader of <paramref name="units"/>.</summary>
    public static AlarmDocument Of(AlarmStatus status, DisplayUnits units)
    {
        var (text, value, limit, unit) = status.In(units);
        return new(
            status.Alarm.Value,
            status.Vat.Value,
            status.State.Word(),
            status.Priority.Word(),
            MqttJson.Time(status.Since.Utc),
            value,
            limit,
            unit.Length == 0 ? null : unit,
            text,
            status.Action,
            status.AcknowledgedBy,
            status.AcknowledgedAt is { } at ? MqttJson.Time(at) : null);
    }
}
