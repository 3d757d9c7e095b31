namespace VatWatch.Notifications.Mqtt;

/// <summary>What the link has done since the daemon began.</summary>
public sealed class MqttCounters
{
    /// <summary>Handed to the network; QoS 0 has no acknowledgement.</summary>
    public Counter MeasurementsPublished { get; } = new();

    /// <summary>Dropped because the queue was full.</summary>
    public Counter MeasurementsDropped { get; } = new();

    /// <summary>Acknowledged by the broker.</summary>
    public Counter ConditionsPublished { get; } = new();

    /// <summary>Never sent because a newer one of the same vat came first.</summary>
    public Counter ConditionsReplaced { get; } = new();

    /// <summary>Alarm states acknowledged by the broker.</summary>
    public Counter AlarmsPublished { get; } = new();

    /// <summary>Conditions and alarm states that the broker refused.</summary>
    public Counter StatesRefused { get; } = new();

    /// <summary>Notifications that the broker took while nobody was subscribed to them.</summary>
    public Counter NotificationsUnheard { get; } = new();

    /// <summary>Commands carried out.</summary>
    public Counter CommandsAccepted { get; } = new();

    /// <summary>Commands refused, malformed ones and those above the rate included.</summary>
    public Counter CommandsRefused { get; } = new();

    /// <summary>Connections made.</summary>
    public Counter Connections { get; } = new();

    /// <summary>Connections lost and attempts that came to nothing.</summary>
    public Counter FailedAttempts { get; } = new();
}

/// <summary>A count that only grows. Thread safe.</summary>
public sealed class Counter
{
    private long _value;

    /// <summary>So far.</summary>
    public long Value => Interlocked.Read(ref _value);

    /// <summary>One more.</summary>
    internal void Add() => Interlocked.Increment(ref _value);
}
