namespace VatWatch.Probes.Serial.Ports;

/// <summary>A port that tells what goes over it.</summary>
internal sealed class OverheardPort(IPort port, Action<OverheardBytes> overhear) : IPort
{
    public void Start(IPortSink sink) => port.Start(new Sink(sink, overhear));

    public void Restart(Action whenEmpty) => port.Restart(whenEmpty);

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        overhear(new(true, bytes.ToArray()));
        return port.WriteAsync(bytes, cancel);
    }

    public void Dispose() => port.Dispose();

    private sealed class Sink(IPortSink sink, Action<OverheardBytes> overhear) : IPortSink
    {
        public void Received(ReadOnlySpan<byte> bytes)
        {
            overhear(new(false, bytes.ToArray()));
            sink.Received(bytes);
        }

        public void Lost(string reason) => sink.Lost(reason);
    }
}
