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
    /// <summary>Turns <paramref name="status"/> into what is written.</summary>
    public static AlarmDocument Of(AlarmStatus status) => new(
        status.Alarm.Value,
        status.Vat.Value,
        status.State.Word(),
        status.Priority.Word(),
        MqttJson.Time(status.Since.Utc),
        Tidy(status.Value),
        Tidy(status.Limit),
        status.Unit.Length == 0 ? null : status.Unit,
        status.Text,
        status.Action,
        status.AcknowledgedBy,
        status.AcknowledgedAt is { } at ? MqttJson.Time(at) : null);

    private static double? Tidy(double? value) => value is { } number && double.IsFinite(number) ? Math.Round(number, 4) : null;
}
