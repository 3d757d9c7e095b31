namespace VatWatch.Notifications.Mqtt;

/// <summary>Counts of the link, kept with interlocked additions.</summary>
internal sealed class MqttTally
{
    public long MeasurementsPublished;
    public long MeasurementsDropped;
    public long ConditionsPublished;
    public long ConditionsReplaced;
    public long AlarmsPublished;
    public long StatesRefused;
    public long NotificationsDelivered;
    public long NotificationsUnheard;
    public long NotificationsRefused;
    public long CommandsAccepted;
    public long CommandsRefused;
    public long Connections;
    public long FailedAttempts;

    /// <summary>The counts at this moment.</summary>
    public MqttCounters Snapshot() => new()
    {
        MeasurementsPublished = Interlocked.Read(ref MeasurementsPublished),
        MeasurementsDropped = Interlocked.Read(ref MeasurementsDropped),
        ConditionsPublished = Interlocked.Read(ref ConditionsPublished),
        ConditionsReplaced = Interlocked.Read(ref ConditionsReplaced),
        AlarmsPublished = Interlocked.Read(ref AlarmsPublished),
        StatesRefused = Interlocked.Read(ref StatesRefused),
        NotificationsDelivered = Interlocked.Read(ref NotificationsDelivered),
        NotificationsUnheard = Interlocked.Read(ref NotificationsUnheard),
        NotificationsRefused = Interlocked.Read(ref NotificationsRefused),
        CommandsAccepted = Interlocked.Read(ref CommandsAccepted),
        CommandsRefused = Interlocked.Read(ref CommandsRefused),
        Connections = Interlocked.Read(ref Connections),
        FailedAttempts = Interlocked.Read(ref FailedAttempts),
    };
}
