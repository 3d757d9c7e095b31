using System.Net.Sockets;
using System.Security.Authentication;
using MQTTnet;
using MQTTnet.Exceptions;

namespace VatWatch.Notifications.Mqtt.Connection;

/// <summary>Turns what the client library throws and returns into clauses for people.</summary>
internal static class BrokerText
{
    /// <summary>A connect that was answered with no.</summary>
    public static BrokerLostException Refused(MqttClientConnectResult result, MqttOptions options)
    {
        var because = result.ReasonString is { Length: > 0 } words ? $"{result.ResultCode}: {FreeText.Quoted(words)}" : result.ResultCode.ToString();
        return result.ResultCode switch
        {
            MqttClientConnectResultCode.BadUserNameOrPassword or MqttClientConnectResultCode.NotAuthorized or MqttClientConnectResultCode.Banned =>
                new(options.User is null
                    ? $"it refuses a client without user and password ({because}); give mqtt.user and mqtt.passwordFile"
                    : $"it refuses user '{options.User}' ({because}); look at mqtt.user and the first line of {options.PasswordFile}")
                { NeedsPerson = true },
            _ => new($"it refuses the connection ({because})"),
        };
    }

    /// <summary>What the broker answered to a publish, its own words included.</summary>
    public static string Reason(MqttClientPublishResult result) =>
        result.ReasonString is { Length: > 0 } words ? $"{result.ReasonCode}: {FreeText.Quoted(words)}" : result.ReasonCode.ToString();

    /// <summary>A connection that ended by itself.</summary>
    public static string Ended(MqttClientDisconnectedEventArgs gone, string clientId) => gone switch
    {
        { Exception: { } exception } => Clause(exception, "connection"),
        { Reason: MqttClientDisconnectReason.SessionTakenOver } =>
            $"another client connected under our name '{clientId}'; is a second VatWatch running for this site?",
        { Reason: MqttClientDisconnectReason.NormalDisconnection or MqttClientDisconnectReason.UnspecifiedError } => "it closed the connection",
        _ => $"it closed the connection ({gone.Reason})",
    };

    /// <summary>Whatever else went wrong while <paramref name="doing"/>.</summary>
    public static string Clause(Exception exception, string doing)
    {
        for (var at = exception; at is not null; at = at.InnerException)
        {
            switch (at)
            {
                case SocketException socket:
                    return NetworkText.Of(socket);
                case AuthenticationException tls:
                    return $"its certificate or encryption was not accepted ({FreeText.Quoted(tls.Message)})";
                case MqttClientUnexpectedDisconnectReceivedException told:
                    return $"it closed the connection ({told.ReasonCode})";
                case OperationCanceledException or TimeoutException or MqttCommunicationTimedOutException:
                    return $"no answer to {doing} in time";
            }
        }

        // Also reached by the library's own faults when a connection goes away under a call, which it reports in many ways.
        return $"the connection broke off during {doing} ({FreeText.Quoted(exception.GetBaseException().Message)})";
    }

    /// <summary>Whether the cause is one that only a person can mend.</summary>
    public static bool NeedsPerson(Exception exception)
    {
        for (var at = exception; at is not null; at = at.InnerException)
        {
            if (at is AuthenticationException)
            {
                return true;
            }
        }

        return false;
    }
}
