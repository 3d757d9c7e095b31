using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Notifications.Mqtt.Commands;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// How payloads are written: camel case, nulls present, and "°F" as it is instead of as an escape. The relaxed encoder is safe here
/// because no payload is ever pasted into a page.
/// </summary>
[JsonSerializable(typeof(SenMlRecord[]))]
[JsonSerializable(typeof(ConditionDocument))]
[JsonSerializable(typeof(AlarmDocument))]
[JsonSerializable(typeof(CommandReply))]
[JsonSerializable(typeof(HeartbeatDocument))]
internal sealed partial class MqttJson : JsonSerializerContext
{
    /// <summary>The one in use.</summary>
    public static MqttJson Readable { get; } = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new UtcTime() },
    });

    private sealed class UtcTime : JsonConverter<DateTimeOffset>
    {
        public override DateTimeOffset Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDateTimeOffset();

        public override void Write(Utf8JsonWriter writer, DateTimeOffset value, JsonSerializerOptions options) => writer.WriteStringValue(WallTime.Rfc3339(value));
    }
}
