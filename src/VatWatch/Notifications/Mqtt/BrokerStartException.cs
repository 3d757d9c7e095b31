namespace VatWatch.Notifications.Mqtt;

/// <summary>The daemon's own broker cannot be started. The message is a sentence for people and says what to change.</summary>
public sealed class BrokerStartException : Exception
{
    /// <summary>For serializers only.</summary>
    public BrokerStartException()
    {
    }

    /// <summary>What was tried, what was seen, what to change.</summary>
    public BrokerStartException(string message)
        : base(message)
    {
    }

    /// <summary>What was tried, what was seen, what to change.</summary>
    public BrokerStartException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
