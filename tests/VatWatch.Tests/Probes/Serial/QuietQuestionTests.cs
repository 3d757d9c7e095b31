using System.Collections.Concurrent;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>A question in text that is never answered beside one that is, on one port, in made-up time with the reply timeout that is the default.</summary>
public sealed class QuietQuestionTests
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);

    private readonly FakeTimeProvider _time = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_one_that_is_answered_keeps_its_beat_and_the_other_is_heard_soon_when_it_answers()
    {
        var port = new HalfDeafPort(_time);
        await using var bus = new SerialBus(new BusId("bench"), new SerialSettings { Port = "/dev/null", ReopenAfterSilence = TimeSpan.FromHours(1) }, _time, _ => port);
        var (liquor, ph) = (Probe(bus, "liquor", "T"), Probe(bus, "ph", "P"));
        await bus.OpenAsync(Cancel);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        Task[] readers = [Task.Run(() => liquor.RunAsync(stop.Token), Cancel), Task.Run(() => ph.RunAsync(stop.Token), Cancel)];

        await LetPassAsync(TimeSpan.FromSeconds(40), () => false);
        Assert.InRange(liquor.Good, 40 / 1.5, 41);
        Assert.Equal(0, ph.Good);
        Assert.Contains(ph.Reasons, reason => reason.Contains("it is asked less often", StringComparison.Ordinal));
        port.IsDeaf = false;
        await LetPassAsync(TimeSpan.FromSeconds(15), () => ph.Good > 0);
        Assert.Equal(0, liquor.Wrong + ph.Wrong);

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Task.WhenAll(readers));

        async Task LetPassAsync(TimeSpan limit, Func<bool> isEnough)
        {
            for (var passed = TimeSpan.Zero; passed < limit && !isEnough(); passed += Step)
            {
                _time.Advance(Step);
                port.Deliver();
                await LetRunAsync();
                Assert.DoesNotContain(readers, reader => reader.IsFaulted);
            }
        }
    }

    private Reader Probe(SerialBus bus, string id, string letter) => new(
        SerialBench.Text(bus, id, Quantity.Temperature, $$"""{ "ask": "{{letter}}?\\r", "pattern": "^{{letter}}=(?<value>[0-9]+)$", "unit": "°C" }"""), letter == "T" ? 45 : 7, _time);

    private static async Task LetRunAsync()
    {
        for (var calm = 0; calm < 3; calm = ThreadPool.PendingWorkItemCount == 0 ? calm + 1 : 0)
        {
            await Task.Yield();
        }

        await Task.Delay(1, Cancel);
    }

    private sealed class Reader(IProbe probe, double right, FakeTimeProvider time)
    {
        public int Good { get; private set; }

        public int Wrong { get; private set; }

        public ConcurrentBag<string> Reasons { get; } = [];

        public async Task RunAsync(CancellationToken cancel)
        {
            var start = time.GetTimestamp();
            while (true)
            {
                var sample = await probe.TakeSampleAsync(cancel);
                (Good, Wrong) = sample.Value is not { } value ? (Good, Wrong) : value == right ? (Good + 1, Wrong) : (Good, Wrong + 1);
                Reasons.Add(sample.Reason ?? "");
                var since = time.GetElapsedTime(start);
                await Task.Delay(Every - TimeSpan.FromTicks(since.Ticks % Every.Ticks), time, cancel);
            }
        }
    }

    /// <summary>Answers T? after 30 ms, and P? only when it is not deaf.</summary>
    private sealed class HalfDeafPort(TimeProvider time) : IPort
    {
        private readonly Lock _lock = new();
        private readonly Queue<(long At, string Line)> _answers = new();
        private IPortSink? _sink;

        public volatile bool IsDeaf = true;

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
            var isLiquor = bytes.Span[0] == 'T';
            lock (_lock)
            {
                if (isLiquor || !IsDeaf)
                {
                    _answers.Enqueue((time.GetTimestamp() + (30 * time.TimestampFrequency / 1000), isLiquor ? "T=45\r\n" : "P=7\r\n"));
                }
            }

            return ValueTask.CompletedTask;
        }

        public void Deliver()
        {
            lock (_lock)
            {
                while (_answers.TryPeek(out var next) && next.At <= time.GetTimestamp())
                {
                    _sink?.Received(Encoding.ASCII.GetBytes(_answers.Dequeue().Line));
                }
            }
        }

        public void Dispose()
        {
        }
    }
}
