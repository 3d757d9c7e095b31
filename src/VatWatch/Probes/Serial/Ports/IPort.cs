namespace VatWatch.Probes.Serial.Ports;

/// <summary>An open serial port that delivers what arrives to one sink, on a thread of its own.</summary>
internal interface IPort : IDisposable
{
    /// <summary>Begins to deliver to <paramref name="sink"/>, until disposed or lost. Called once.</summary>
    void Start(IPortSink sink);

    /// <summary>Delivers what has arrived so far, then runs <paramref name="whenEmpty"/> before anything newer is delivered.</summary>
    void Restart(Action whenEmpty);

    /// <summary>Sends all of <paramref name="bytes"/>. Throws <see cref="BusLostException"/> when the port is gone or takes nothing for a second.</summary>
    ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel);
}

/// <summary>Where an <see cref="IPort"/> delivers; called by one thread at a time and never blocking.</summary>
internal interface IPortSink
{
    /// <summary>Bytes as they came; valid during the call only.</summary>
    void Received(ReadOnlySpan<byte> bytes);

    /// <summary>The device is gone; nothing more will come. <paramref name="reason"/> is a clause for people.</summary>
    void Lost(string reason);
}
