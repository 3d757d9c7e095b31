using System.Buffers.Binary;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>
/// A device at the far end of a line that answers each register with its own number, in order, and badly: half of its answers are late, by
/// less than one reply timeout; one question in forty is lost; and now and then it is stuck for up to this many milliseconds, lets questions pile up, and then
/// answers them all at once.
/// </summary>
internal sealed class LateDevice(TimeProvider time, int seed, int longestStuck = 600) : IPort
{
    public static readonly TimeSpan ReplyTimeout = TimeSpan.FromMilliseconds(100);

    private readonly Random _random = new(seed);
    private readonly Lock _lock = new();
    private readonly Queue<(long At, bool Late, byte[] Frame)> _answers = new();
    private readonly long _start = time.GetTimestamp();
    private IPortSink? _sink;
    private double _busyUntil;

    /// <summary>Answers sent so far after the asker had stopped waiting.</summary>
    public int SentLate { get; private set; }

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
            var now = time.GetElapsedTime(_start).TotalMilliseconds;
            var chance = _random.NextDouble();
            if (chance < 0.025)
            {
                return ValueTask.CompletedTask;
            }

            var takes = chance < 0.5 ? _random.Next(0, 60) : chance < 0.99 ? _random.Next(110, 175) : _random.Next(300, longestStuck);
            _busyUntil = Math.Max(now + takes, _busyUntil);
            _answers.Enqueue(((long)_busyUntil, _busyUntil - now > ReplyTimeout.TotalMilliseconds, Answer(bytes.Span)));
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>Sends what is due.</summary>
    public void Deliver()
    {
        lock (_lock)
        {
            while (_answers.TryPeek(out var next) && next.At <= time.GetElapsedTime(_start).TotalMilliseconds)
            {
                _answers.Dequeue();
                SentLate += next.Late ? 1 : 0;
                _sink?.Received(next.Frame);
            }
        }
    }

    public void Dispose()
    {
    }

    private static byte[] Answer(ReadOnlySpan<byte> request)
    {
        var frame = new byte[7];
        frame[0] = request[0];
        frame[1] = request[1];
        frame[2] = 2;
        request.Slice(2, 2).CopyTo(frame.AsSpan(3));
        BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(5), Crc.Modbus(frame.AsSpan(0, 5)));
        return frame;
    }
}
