using Microsoft.Extensions.Logging;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Sentences of the MQTT link and the built-in broker; events 6100 to 6199.</summary>
internal static partial class Log
{
    [LoggerMessage(6100, LogLevel.Information, "MQTT {Broker}: connected; all retained topics are being written anew")]
    public static partial void Connected(this ILogger log, string broker);

    [LoggerMessage(6101, LogLevel.Warning, "{Reason} Notifications wait in the outbox; next try in {Seconds} s, then less and less often")]
    public static partial void NotConnected(this ILogger log, string reason, double seconds);

    [LoggerMessage(6102, LogLevel.Warning, "MQTT {Broker}: subscription to {Filter} refused; that command cannot be given by MQTT until the broker allows it")]
    public static partial void CommandsRefused(this ILogger log, string broker, string filter);

    [LoggerMessage(6103, LogLevel.Error, "MQTT topic {Topic} was refused ({Reason}); its state there is out of date until it changes or the connection is made anew")]
    public static partial void StateRefused(this ILogger log, string topic, string reason);

    [LoggerMessage(6111, LogLevel.Warning, "The broker took a notification on {Topic}, but nobody is subscribed to it; a phone would not have heard it")]
    public static partial void NobodySubscribed(this ILogger log, string topic);

    [LoggerMessage(6120, LogLevel.Warning, "MQTT command refused: {Reason}")]
    public static partial void CommandRefused(this ILogger log, string reason);

    [LoggerMessage(6121, LogLevel.Warning, "MQTT commands come faster than one a second; those above are not looked at")]
    public static partial void TooManyCommands(this ILogger log);

    [LoggerMessage(6122, LogLevel.Error, "Command on '{Topic}' could not be carried out; the sender was told to try again")]
    public static partial void CommandFailed(this ILogger log, string topic, Exception wrong);

    [LoggerMessage(6130, LogLevel.Information, "Built-in MQTT broker listens on {Address}")]
    public static partial void BrokerListens(this ILogger log, string address);

    [LoggerMessage(6132, LogLevel.Error, "{Sentence} The watch goes on, and this is tried again and again.")]
    public static partial void BrokerNotOpened(this ILogger log, string sentence);

    [LoggerMessage(6131, LogLevel.Warning, "Built-in MQTT broker refused a client: {Reason}")]
    public static partial void BrokerRefused(this ILogger log, string reason);
}
