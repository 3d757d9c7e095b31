namespace VatWatch.Notifications.Mqtt.Connection;

/// <summary>The broker cannot be reached, refuses us or has gone. The message is a clause for people.</summary>
internal sealed class BrokerLostException(string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>Whether a call had no answer within its limit, so that the connection may still be there.</summary>
    public bool IsUnanswered { get; init; }

    /// <summary>Whether only a person can mend it (a wrong password, an untrusted certificate), so that trying often is of no use.</summary>
    public bool NeedsPerson { get; init; }
}
