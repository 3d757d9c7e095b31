using System.Text.Json.Serialization.Metadata;
using System.Text.RegularExpressions;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Notifications.Mqtt;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>Keeps config/asyncapi.yaml true: it names every topic, field and word that is written, and no other.</summary>
public sealed class TopicPageTests
{
    private readonly string _page = File.ReadAllText(SourceTree.At("config", "asyncapi.yaml"));

    [Fact]
    public void Every_topic_is_described()
    {
        var topics = new MqttTopics("{site}");
        Assert.Equal(
            [
                topics.Status, topics.Heartbeat, topics.Measurement(new("{vat}"), new("{probe}")), topics.Condition(new("{vat}")), topics.Alarm(new("{vat}"), new("{alarm}")),
                topics.Notification(new("{vat}")), topics.Notification(new("{vat}"), "{contact}"), .. MqttTopics.Commands.Select(kind => topics.Command(new("{vat}"), kind)), topics.HeaterCommand(new("{vat}")), "null",
            ],
            Regex.Matches(_page, "^    address: (.+)$", RegexOptions.Multiline).Select(match => match.Groups[1].Value));
    }

    [Fact]
    public void Every_field_is_described_in_its_order()
    {
        Assert.Equal(Fields(MqttJson.Readable.AlarmDocument), Listed("    alarm:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.HeartbeatDocument), Listed("    beat:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.ConditionDocument), Listed("    condition:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.WarmUpDocument), Listed("    warmUp:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.ForecastDocument), Listed("    forecast:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.ConditionFigures), Listed("    figures:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.HeatFigures), Listed("    heat:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.MarginFigures), Listed("    margin:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.GoodDaysFigures), Listed("    fromGoodDays:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.RecoveryFigures), Listed("    recovery:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.DiagnosisFigures), Listed("    diagnosis:", "required"));
        Assert.Equal(Fields(MqttJson.Readable.CommandReply), Listed("    reply:", "required"));
    }

    [Fact]
    public void Every_word_is_described()
    {
        Assert.Equal(Enum.GetValues<AlarmState>().Select(state => state.Word()), Listed("    alarm:", "state: { type: string, enum"));
        Assert.Equal(Enum.GetValues<AlarmPriority>().Select(priority => priority.Word()), Listed("    alarm:", "priority: { type: string, enum"));
        Assert.Equal(Enum.GetValues<DiagnosisKind>().Select(kind => kind.Word()), Listed("    diagnosis:", "kind: { type: string, enum"));
        Assert.Equal(Enum.GetValues<WarmUpCause>().Select(cause => cause.Word()), Listed("    warmUp:", "causes: { type: array, items: { type: string, enum"));
        Assert.Equal(Enum.GetValues<VatState>().Select(state => state.Word()), Listed("    condition:", "state: { type: string, enum"));
    }

    private static IEnumerable<string> Fields(JsonTypeInfo type) => type.Properties.Select(property => property.Name);

    /// <summary>The words in brackets after <paramref name="key"/>, in the last section that begins with <paramref name="section"/> (schemas stand last).</summary>
    private string[] Listed(string section, string key)
    {
        var from = _page.LastIndexOf($"\n{section}\n", StringComparison.Ordinal);
        return Regex.Match(_page[from..], Regex.Escape(key) + @": \[([^\]]+)\]").Groups[1].Value.Split(", ");
    }
}
