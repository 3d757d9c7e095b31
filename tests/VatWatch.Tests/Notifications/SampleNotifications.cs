using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Tests.Notifications.Mqtt;

namespace VatWatch.Tests.Notifications;

/// <summary>Sentences of the project's own scenario and whom they are for.</summary>
internal static class SampleNotifications
{
    public static Contact Dyer { get; } = new() { Id = "dyer", Name = "The dyer", Way = new ContactWay.Mail("dyer@studio.example"), Units = DisplayUnits.Us };

    public static AlarmPages Pages { get; } = new(new("https://vats.example/"));

    public static Notification TooHot(long id = 7, AlarmState state = AlarmState.Unacknowledged)
    {
        var status = RunningLink.Overheat(state);
        return new(id, status.Vat, status.Alarm, status.Priority, status.Since.Utc, status.Text.In(DisplayUnits.Us))
        {
            Document = JsonSerializer.Serialize(AlarmDocument.Of(status, DisplayUnits.Us), MqttJson.Readable.AlarmDocument),
        };
    }
}
