using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>
/// A bus on a real port whose limits are in made-up time. It stands still while an answer is awaited, however long the machine takes to bring it,
/// and passes where none is to come.
/// </summary>
internal sealed class SteppedBus : IAsyncDisposable
{
    /// <summary>The limit for an answer of one line, unless told otherwise.</summary>
    private static readonly TimeSpan UsualTimeout = TimeSpan.FromMilliseconds(300);

    /// <summary>Time that passes per look while nothing is awaited from the instrument: for rests and for late answers that do not come.</summary>
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);

    private readonly FakeTimeProvider _time = new();
    private readonly StringBuilder _heard = new();
    private int _sent;
    private int _answered;

    public SteppedBus(string port, TimeSpan? replyTimeout = null)
    {
        var settings = new SerialSettings { Port = port, Baud = 115_200, ReplyTimeout = replyTimeout ?? UsualTimeout, ReopenAfterSilence = TimeSpan.FromDays(1) };
        Bus = new SerialBus(new BusId("bench"), settings, _time, opened => new NotingPort(SerialDevice.Open(opened), this));
    }

    public SerialBus Bus { get; }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>A sample for which the instrument answers.</summary>
    public async Task<Sample> AnsweredAsync(IProbe probe)
    {
        Forget();
        var sample = probe.TakeSampleAsync(Cancel).AsTask();
        while (!sample.IsCompleted)
        {
            await Task.WhenAny(sample, Task.Delay(1, Cancel));
            if (!IsAwaited)
            {
                _time.Advance(Step);
            }
        }

        return await sample;
    }

    /// <summary>A sample that ends by its limit, after <paramref name="heard"/> has come from the instrument.</summary>
    public async Task<Sample> UnansweredAsync(IProbe probe, string heard = "")
    {
        Forget();
        var sample = probe.TakeSampleAsync(Cancel).AsTask();
        while (!sample.IsCompleted)
        {
            await Task.WhenAny(sample, Task.Delay(1, Cancel));
            if (Heard.Contains(heard, StringComparison.Ordinal) || !(probe.Listens || IsAwaited))
            {
                _time.Advance(Step);
            }
        }

        return await sample;
    }

    public ValueTask DisposeAsync() => Bus.DisposeAsync();

    private string Heard
    {
        get
        {
            lock (_heard)
            {
                return _heard.ToString();
            }
        }
    }

    private bool IsAwaited
    {
        get
        {
            lock (_heard)
            {
                return _sent > _answered;
            }
        }
    }

    private void Forget()
    {
        lock (_heard)
        {
            _heard.Clear();
            _answered = _sent;
        }
    }

    /// <summary>Questions sent so far.</summary>
    private int Sent
    {
        get
        {
            lock (_heard)
            {
                return _sent;
            }
        }
    }

    private void NoteSent()
    {
        lock (_heard)
        {
            _sent++;
        }
    }

    /// <summary>Notes what came after so many questions; the end of a line answers them.</summary>
    private void NoteHeard(string text, int sent)
    {
        lock (_heard)
        {
            _heard.Append(text);
            _answered = text[^1] is '\r' or '\n' ? Math.Max(_answered, sent) : _answered;
        }
    }

    /// <summary>Notes what the bus has sent and what it has been given.</summary>
    private sealed class NotingPort(IPort port, SteppedBus notes) : IPort
    {
        public void Start(IPortSink sink) => port.Start(new Sink(sink, notes));

        public void Restart(Action whenEmpty) => port.Restart(whenEmpty);

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            notes.NoteSent();
            return port.WriteAsync(bytes, cancel);
        }

        public void Dispose() => port.Dispose();

        private sealed class Sink(IPortSink sink, SteppedBus notes) : IPortSink
        {
            public void Received(ReadOnlySpan<byte> bytes)
            {
                // When the bus has them it may ask the next question at once, before this thread goes on.
                var (text, sent) = (Encoding.Latin1.GetString(bytes), notes.Sent);
                sink.Received(bytes);
                notes.NoteHeard(text, sent);
            }

            public void Lost(string reason) => sink.Lost(reason);
        }
    }
}
