using System.Globalization;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>An instrument that sends each answer in two halves, 900 ms apart, in made-up time.</summary>
public sealed class BurstsTests
{
    private const int Readings = 1000;

    private readonly FakeTimeProvider _time = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_thousand_answers_in_two_bursts_are_put_together()
    {
        var settings = new SerialSettings { Port = "/dev/null", ReplyTimeout = TimeSpan.FromSeconds(1) };
        await using var bus = new SerialBus(new BusId("bench"), settings, _time, _ => new BurstingPort(_time));
        var probe = SerialBench.Text(bus, "liquor", Quantity.Temperature, """{ "ask": "T?\\r", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" }""");
        await bus.OpenAsync(Cancel);
        for (var n = 0; n < Readings; n++)
        {
            var sample = await TakeAsync(probe);
            Assert.True(sample.Quality == Quality.Good, sample.Reason);
            Assert.Equal(20 + n / 100.0, sample.Value!.Value, 1e-9);
        }
    }

    private async Task<Sample> TakeAsync(IProbe probe)
    {
        var sample = probe.TakeSampleAsync(Cancel).AsTask();
        while (!sample.IsCompleted)
        {
            _time.Advance(TimeSpan.FromMilliseconds(50));
            await Task.Yield();
        }

        return await sample;
    }

    /// <summary>Answers the first question with 20.00 and each further with a hundredth more.</summary>
    private sealed class BurstingPort(FakeTimeProvider time) : IPort
    {
        private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(900);

        private readonly List<ITimer> _halves = [];
        private IPortSink? _sink;
        private int _asked;

        public void Start(IPortSink sink) => _sink = sink;

        public void Restart(Action whenEmpty) => whenEmpty();

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            var second = string.Create(CultureInfo.InvariantCulture, $"{20 + _asked++ / 100.0:0.00}C\r\n");
            _sink!.Received("T="u8);
            _halves.Add(time.CreateTimer(_ => _sink.Received(Encoding.ASCII.GetBytes(second)), null, Between, Timeout.InfiniteTimeSpan));
            return ValueTask.CompletedTask;
        }

        public void Dispose() => _halves.ForEach(half => half.Dispose());
    }
}
