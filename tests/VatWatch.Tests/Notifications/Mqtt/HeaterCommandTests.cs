using System.Text;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Commands;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Notifications.Mqtt;

public sealed class HeaterCommandTests
{
    [Theory]
    [InlineData("""{"heater":"on","readyBy":"09:00","by":"Ada"}""", EntryKind.HeaterOn, 9)]
    [InlineData("""{"by":" Ada\u0007","heater":"on"}""", EntryKind.HeaterOn, null)]
    [InlineData("""{"heater":"off","by":"Ada"}""", EntryKind.HeaterOff, null)]
    public void A_command_becomes_an_entry(string payload, EntryKind kind, int? hour)
    {
        Assert.True(Parse(payload, out var draft, out _));
        Assert.Equal(new EntryDraft(new("madder-lane"), kind, "Ada") { ReadyAt = hour is { } h ? new TimeOnly(h, 0) : null }, draft);
    }

    [Theory]
    [InlineData("on", "not JSON; wanted an object such as")]
    [InlineData("""{"heater":"on"}""", "lacks the field \"by\"")]
    [InlineData("""{"heater":"warm","by":"Ada"}""", "the heater is \"warm\"; wanted \"on\" or \"off\"")]
    [InlineData("""{"heater":"on","by":"Ada","readyBy":"9 am"}""", "the time in \"readyBy\" is \"9 am\"; wanted a local time of day such as \"09:00\"")]
    [InlineData("""{"heater":"off","by":"Ada","readyBy":"09:00"}""", "the heater is off and \"readyBy\" is given")]
    [InlineData("""{"heater":"on","by":"\u0001"}""", "0 characters that can be shown; wanted 1 to 60")]
    [InlineData("""{"heater":true,"by":"Ada"}""", "\"heater\" is no text")]
    [InlineData("""{"heater":"on","by":"Ada","watts":1500}""", "unknown field \"watts\"")]
    public void A_bad_command_is_told_what_was_seen(string payload, string told)
    {
        Assert.False(Parse(payload, out var draft, out var fault));
        Assert.Null(draft);
        Assert.Contains(told, fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("vatwatch/hill-studio/madder-lane/command/heater", true)]
    [InlineData("vatwatch/hill-studio/Madder Lane/command/heater", false)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/heater/on", false)]
    [InlineData("vatwatch/other/madder-lane/command/heater", false)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/note", false)]
    public void Its_topic_is_known_by_its_parts(string topic, bool isHeater) => Assert.Equal(isHeater, new MqttTopics("hill-studio").TryReadCommand(topic, out _, out var kind) && kind is null);

    private static bool Parse(string payload, out EntryDraft? draft, out string? fault) => HeaterCommand.TryParse(new("madder-lane"), Encoding.UTF8.GetBytes(payload), out draft, out fault);
}
