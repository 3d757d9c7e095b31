namespace VatWatch.Notifications.Mqtt;

/// <summary>What the link has done since the daemon began. All counts only grow.</summary>
public sealed record MqttCounters
{
    /// <summary>Handed to the network; QoS 0 has no acknowledgement.</summary>
    public long MeasurementsPublished { get; init; }

    /// <summary>Dropped because the queue was full.</summary>
    public long MeasurementsDropped { get; init; }

    /// <summary>Acknowledged by the broker.</summary>
    public long ConditionsPublished { get; init; }

    /// <summary>Never sent because a newer one of the same vat came first.</summary>
    public long ConditionsReplaced { get; init; }

    /// <summary>Alarm states acknowledged by the broker.</summary>
    public long AlarmsPublished { get; init; }

    /// <summary>Conditions and alarm states that the broker refused.</summary>
    public long StatesRefused { get; init; }

    /// <summary>Acknowledged by the broker and marked in the outbox.</summary>
    public long NotificationsDelivered { get; init; }

    /// <summary>Of those, how many had no subscriber at that moment.</summary>
    public long NotificationsUnheard { get; init; }

    /// <summary>Tries that the broker refused.</summary>
    public long NotificationsRefused { get; init; }

    /// <summary>Commands carried out.</summary>
    public long CommandsAccepted { get; init; }

    /// <summary>Commands refused, malformed ones and those above the rate included.</summary>
    public long CommandsRefused { get; init; }

    /// <summary>Connections made.</summary>
    public long Connections { get; init; }

    /// <summary>Connections lost and attempts that came to nothing.</summary>
    public long FailedAttempts { get; init; }
}
