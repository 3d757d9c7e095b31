using System.Globalization;
using System.Text;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>
/// An instrument that answers each question with its own bare number and changes its manner every few seconds: at once, late, in two halves, byte by
/// byte, or not at all. Answers come in the order of the questions, one byte after the other.
/// </summary>
internal sealed class MoodyInstrument(TimeProvider time, int seed) : IPort
{
    public static readonly TimeSpan ReplyTimeout = TimeSpan.FromMilliseconds(120);

    /// <summary>Questions, and the least of what each is answered; the most is less than 0.1 more, or the same with an even seed.</summary>
    public static readonly (string Ask, double Least)[] Values = [("T", 45.2), ("PH", 9.81), ("ORP", -655.1)];

    /// <summary>Seconds before an answer, between its halves and between its bytes; a negative one is silence.</summary>
    private static readonly (double Late, double Half, double Drip)[] Manners =
    [
        (0, 0, 0), (0, 0, 0), (0.09, 0, 0), (0.13, 0, 0), (0.25, 0, 0), (0.4, 0, 0), (0.7, 0, 0), (1.5, 0, 0), (2.2, 0, 0), (0, 0.03, 0), (0, 0.2, 0), (0, 0, 0.005), (0, 0, 0.02), (0, 0, 0.1), (-1, 0, 0),
    ];

    private readonly Random _random = new(seed);
    private readonly Lock _lock = new();
    private readonly Queue<(double At, byte[] Bytes)> _sending = new();
    private readonly long _start = time.GetTimestamp();
    private (double Late, double Half, double Drip) _manner;
    private double _mannerUntil;
    private double _busyUntil;
    private IPortSink? _sink;

    private double Now => time.GetElapsedTime(_start).TotalSeconds;

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
        var question = Encoding.ASCII.GetString(bytes.Span).TrimEnd('\r', '?');
        lock (_lock)
        {
            if (Now >= _mannerUntil)
            {
                _manner = Manners[_random.Next(Manners.Length)];
                _mannerUntil = Now + 1 + (4 * _random.NextDouble());
            }

            if (_manner.Late >= 0)
            {
                Send(string.Create(CultureInfo.InvariantCulture, $"{Values.Single(each => each.Ask == question).Least + (seed % 2 * _random.Next(10) / 100.0):0.00}\r\n"));
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>Sends what is due.</summary>
    public void Deliver()
    {
        lock (_lock)
        {
            while (_sending.TryPeek(out var next) && next.At <= Now)
            {
                _sink?.Received(_sending.Dequeue().Bytes);
            }
        }
    }

    public void Dispose()
    {
    }

    private void Send(string line)
    {
        var half = line.Length / 2;
        string[] pieces = _manner.Drip > 0 ? [.. line.Select(letter => letter.ToString())] : _manner.Half > 0 ? [line[..half], line[half..]] : [line];
        var at = Math.Max(Now + _manner.Late, _busyUntil);
        foreach (var piece in pieces)
        {
            _sending.Enqueue((at, Encoding.ASCII.GetBytes(piece)));
            at += _manner.Drip + _manner.Half;
        }

        _busyUntil = Math.Max(_busyUntil, at - _manner.Half);
    }
}
