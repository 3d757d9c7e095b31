namespace VatWatch.Notifications.Mqtt;

/// <summary>Every wait and bound of the link, with its reason. Tests shorten them; the configuration does not.</summary>
internal sealed record MqttTimings
{
    /// <summary>Reaching the broker, TLS and the broker's word included.</summary>
    public TimeSpan Connect { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>One exchange: a publish until its acknowledgement, a subscription, a ping. Beyond it the connection is given up.</summary>
    public TimeSpan Exchange { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Taking leave at the end of the daemon.</summary>
    public TimeSpan Leave { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>
    /// Keep alive asked for. The broker publishes the will after one and a half times this (MQTT 5 §3.1.2.10): a phone knows within 45 s
    /// that the watch is gone. We ping twice in this time, so a broker that hangs is noticed within 15 s plus one exchange.
    /// </summary>
    public TimeSpan KeepAlive { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>
    /// How long the broker keeps our subscription when the connection breaks. Long enough for an acknowledgement sent during a short break
    /// to arrive; not so long that one meant for last hour's alarm silences a new one.
    /// </summary>
    public TimeSpan SessionExpiry { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Between two beats of the heartbeat.</summary>
    public TimeSpan Heartbeat { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>First wait after a loss.</summary>
    public TimeSpan FirstRetry { get; init; } = TimeSpan.FromSeconds(0.5);

    /// <summary>Longest wait after a loss; a broker that was away all night is found again within it, a fifth more by chance.</summary>
    public TimeSpan MostRetry { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>First wait after something only a person can mend, such as a wrong password; some brokers ban clients that knock too often.</summary>
    public TimeSpan FirstRefusedRetry { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest wait after something only a person can mend.</summary>
    public TimeSpan MostRefusedRetry { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>A connection that lived this long counts as sound: the next loss begins with the first wait again.</summary>
    public TimeSpan Sound { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Measurements that wait for the broker: about a quarter of an hour of five probes at 5 s.</summary>
    public int MeasurementCapacity { get; init; } = 1000;

    /// <summary>What waits to be published is looked for this often even if nobody says that something waits.</summary>
    public TimeSpan IdlePoll { get; init; } = TimeSpan.FromSeconds(60);
}
