using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace VatWatch.Notifications.Webhook;

/// <summary>A sentence as a CloudEvent 1.0 in structured JSON (CloudEvents specification v1.0.2 and its JSON event format). FORMAT.md describes it.</summary>
internal static class CloudEvent
{
    public const string ContentType = "application/cloudevents+json";

    /// <summary>The event's bytes, UTF-8. The same notification and key give the same bytes.</summary>
    public static byte[] Of(Notification notification, string key, string site, string contact, string? page)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using var json = new Utf8JsonWriter(bytes, new JsonWriterOptions { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        json.WriteString("specversion", "1.0");
        json.WriteString("id", key);
        json.WriteString("source", $"/vatwatch/{site}");
        json.WriteString("type", notification.Document is null ? "vatwatch.message" : "vatwatch.alarm");
        json.WriteString("subject", $"{notification.Vat}/{notification.Alarm}");
        json.WriteString("time", WallTime.Rfc3339(notification.Created));
        json.WriteString("datacontenttype", "application/json");
        json.WriteStartObject("data");
        json.WriteString("sentence", notification.Sentence);
        json.WriteString("contact", contact);
        json.WriteString("page", page);
        json.WritePropertyName("alarm");
        json.WriteRawValue(notification.Document ?? "null");
        json.WriteEndObject();
        json.WriteEndObject();
        json.Flush();
        return bytes.WrittenSpan.ToArray();
    }
}
