using System.Buffers.Binary;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>A line with a device at address 17 that answers after 30 ms with the number of the register. Some frames are lost; other addresses are silent.</summary>
internal sealed class LossyLine(TimeProvider time, double lost, int seed) : IPort
{
    private readonly Random _random = new(seed);
    private readonly Lock _lock = new();
    private readonly Queue<(long At, byte[] Frame)> _answers = new();
    private IPortSink? _sink;

    public void Start(IPortSink sink) => _sink = sink;

    public void Restart(Action whenEmpty)
    {
        lock (_lock)
        {
            whenEmpty();
        }
    }

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        lock (_lock)
        {
            if (bytes.Span[0] == 17 && _random.NextDouble() >= lost)
            {
                _answers.Enqueue((time.GetTimestamp() + (30 * time.TimestampFrequency / 1000), Answer(bytes.Span)));
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>Sends what is due.</summary>
    public void Deliver()
    {
        lock (_lock)
        {
            while (_answers.TryPeek(out var next) && next.At <= time.GetTimestamp())
            {
                _sink?.Received(_answers.Dequeue().Frame);
            }
        }
    }

    public void Dispose()
    {
    }

    private static byte[] Answer(ReadOnlySpan<byte> request)
    {
        var frame = new byte[7];
        request[..2].CopyTo(frame);
        frame[2] = 2;
        request.Slice(2, 2).CopyTo(frame.AsSpan(3));
        BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(5), Crc.Modbus(frame.AsSpan(0, 5)));
        return frame;
    }
}
