namespace VatWatch.Notifications.Mqtt;

/// <summary>The broker cannot be reached, refuses us or has gone. The message is a clause for people.</summary>
internal sealed class BrokerLostException : Exception
{
    /// <summary>For serializers only.</summary>
    public BrokerLostException()
    {
    }

    /// <summary>What was seen.</summary>
    public BrokerLostException(string message)
        : base(message)
    {
    }

    /// <summary>What was seen.</summary>
    public BrokerLostException(string message, Exception inner)
        : base(message, inner)
    {
    }

    /// <summary>Whether only a person can mend it (a wrong password, an untrusted certificate), so that trying often is of no use.</summary>
    public bool NeedsPerson { get; init; }
}
