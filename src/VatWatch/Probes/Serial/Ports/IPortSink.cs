namespace VatWatch.Probes.Serial.Ports;

/// <summary>Where an <see cref="IPort"/> delivers; called by one thread at a time and never blocking.</summary>
internal interface IPortSink
{
    /// <summary>Bytes as they came; valid during the call only.</summary>
    void Received(ReadOnlySpan<byte> bytes);

    /// <summary>The device is gone; nothing more will come. <paramref name="reason"/> is a clause for people.</summary>
    void Lost(string reason);
}
