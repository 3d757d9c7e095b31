using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Mqtt;

/// <summary>The names of all topics of one site. <c>config/asyncapi.yaml</c> describes what is in them.</summary>
/// <param name="site">The configuration's <c>site</c>.</param>
public sealed class MqttTopics(string site)
{
    private const string Heater = "heater";

    /// <summary>What every topic of this site begins with.</summary>
    public string Prefix { get; } = $"vatwatch/{site}";

    /// <summary><c>online</c> or <c>offline</c>.</summary>
    public string Status => $"{Prefix}/status";

    /// <summary>Commands that are taken by topic; taking an alarm out of service wants somebody at the page or the machine.</summary>
    public static IReadOnlyList<AlarmActKind> Commands { get; } = [AlarmActKind.Acknowledge, AlarmActKind.Shelve, AlarmActKind.Unshelve, AlarmActKind.Note];

    /// <summary>What subscriptions to every command name.</summary>
    public IReadOnlyList<string> CommandFilters => [.. Commands.Select(kind => $"{Prefix}/+/command/{kind.Word()}"), $"{Prefix}/+/command/{Heater}"];

    /// <summary>Newest measurement of one probe.</summary>
    public string Measurement(VatId vat, ProbeId probe) => $"{Prefix}/{vat}/measurement/{probe}";

    public string Condition(VatId vat) => $"{Prefix}/{vat}/condition";

    /// <summary>One alarm as it stands.</summary>
    public string Alarm(VatId vat, AlarmName alarm) => $"{Prefix}/{vat}/alarm/{alarm}";

    /// <summary>That the watch goes on.</summary>
    public string Heartbeat => $"{Prefix}/heartbeat";

    /// <summary>Sentences for a person's phone; for one contact alone when <paramref name="own"/> names it.</summary>
    public string Notification(VatId vat, string? own = null) => own is null ? $"{Prefix}/{vat}/notification" : $"{Prefix}/{vat}/notification/{own}";

    /// <summary>Where commands for one vat are sent to.</summary>
    public string Command(VatId vat, AlarmActKind kind) => $"{Prefix}/{vat}/command/{kind.Word()}";

    /// <summary>Where it is told that the heater of a vat was switched on or off.</summary>
    public string HeaterCommand(VatId vat) => $"{Prefix}/{vat}/command/{Heater}";

    /// <summary>Vat and act of a command topic, or no act for <see cref="HeaterCommand"/>; false for any other topic and for a name that no vat can have.</summary>
    public bool TryReadCommand(string topic, out VatId vat, out AlarmActKind? kind)
    {
        (vat, kind) = (default, null);
        var parts = topic.StartsWith($"{Prefix}/", StringComparison.Ordinal) ? topic[(Prefix.Length + 1)..].Split('/') : [];
        if (parts is not [var name, "command", var word] || !ConfigNode.IsName(name))
        {
            return false;
        }

        (vat, kind) = (new(name), Commands.Where(act => act.Word() == word).Select(act => (AlarmActKind?)act).FirstOrDefault());
        return kind is not null || word == Heater;
    }

    /// <summary>
    /// Whether a command may have its answer sent to <paramref name="topic"/>. Whoever sends a command borrows the daemon's right to
    /// publish by naming a response topic; below our own prefix only <c>{vat}/command/reply/...</c> is allowed, so that nobody can have
    /// the daemon overwrite the state of an alarm.
    /// </summary>
    public bool MayAnswer(string topic) =>
        topic.Length is > 0 and <= LongestResponseTopic
        && topic[0] != '$'
        && !topic.Any(c => c is '+' or '#' || char.IsControl(c))
        && (!topic.StartsWith("vatwatch/", StringComparison.Ordinal) || IsReply(topic));

    private bool IsReply(string topic) =>
        topic.StartsWith($"{Prefix}/", StringComparison.Ordinal)
        && topic[(Prefix.Length + 1)..].Split('/') is [_, "command", "reply", .., { Length: > 0 }];

    /// <summary>Ample for any topic of ours or of a phone; bounds what a stranger can have us repeat.</summary>
    private const int LongestResponseTopic = 200;
}
