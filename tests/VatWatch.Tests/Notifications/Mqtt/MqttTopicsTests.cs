using VatWatch.Notifications.Mqtt;

namespace VatWatch.Tests.Notifications.Mqtt;

public sealed class MqttTopicsTests
{
    private readonly MqttTopics _topics = new("hill-studio");

    [Theory]
    [InlineData("vatwatch/hill-studio/madder-lane/command/acknowledge", "madder-lane")]
    [InlineData("vatwatch/hill-studio/daemon/command/acknowledge", "daemon")]
    [InlineData("vatwatch/other-studio/madder-lane/command/acknowledge", null)]
    [InlineData("vatwatch/hill-studio/Madder Lane/command/acknowledge", null)]
    [InlineData("vatwatch/hill-studio//command/acknowledge", null)]
    [InlineData("vatwatch/hill-studio/a/b/command/acknowledge", null)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/shelve", "madder-lane")]
    [InlineData("vatwatch/hill-studio/madder-lane/command/out-of-service", null)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/reply", null)]
    [InlineData("", null)]
    public void Only_a_command_topic_of_this_site_names_a_vat(string topic, string? vat)
    {
        var isCommand = _topics.TryReadCommand(topic, out var found, out _);
        Assert.Equal(vat, isCommand ? found.Value : null);
    }

    [Theory]
    [InlineData("phone/7/answers", true)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/reply/phone-7", true)]
    [InlineData("vatwatch/hill-studio/madder-lane/alarm/overheat", false)]
    [InlineData("vatwatch/hill-studio/status", false)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/acknowledge", false)]
    [InlineData("vatwatch/hill-studio/madder-lane/command/reply/", false)]
    [InlineData("vatwatch/other-studio/status", false)]
    [InlineData("$SYS/broker", false)]
    [InlineData("phone/#", false)]
    [InlineData("phone/\u0007", false)]
    [InlineData("", false)]
    public void Nobody_can_have_an_answer_sent_onto_a_topic_of_state(string topic, bool may) => Assert.Equal(may, _topics.MayAnswer(topic));

    [Fact]
    public void A_very_long_response_topic_is_not_used() => Assert.False(_topics.MayAnswer(new string('a', 201)));
}
