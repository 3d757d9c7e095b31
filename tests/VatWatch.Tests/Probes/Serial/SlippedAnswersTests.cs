using System.Globalization;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>An instrument with bare numbers as answers that falls an answer behind though it has answered every question.</summary>
public sealed class SlippedAnswersTests : IAsyncDisposable
{
    private const int Rounds = 8;

    private readonly FakeTimeProvider _time = new();
    private readonly SlippingPort _port = new();
    private readonly SerialBus _bus;
    private readonly List<(IProbe Probe, string Ask)> _probes = [];

    public SlippedAnswersTests()
    {
        _bus = new SerialBus(new BusId("bench"), new SerialSettings { Port = "/dev/null", ReopenAfterSilence = TimeSpan.FromHours(1) }, _time, _ => _port);
        foreach (var ask in _port.Values.Keys)
        {
            var settings = $$"""{ "ask": "{{ask}}?\\r", "pattern": "^(?<value>[-+0-9.]+)$", "unit": "°C" }""";
            _probes.Add((SerialBench.Text(_bus, ask.ToLowerInvariant(), Quantity.Temperature, settings, 1), ask));
        }
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _bus.DisposeAsync();

    [Theory]
    [InlineData("9.81")]
    [InlineData("-655.0")]
    [InlineData("25.0")]
    [InlineData("2.31")]
    public async Task What_is_another_questions_is_given_to_nobody(string between)
    {
        await _bus.OpenAsync(Cancel);
        await HoldAsync(Rounds);
        for (var slip = 0; slip < _probes.Count; slip++)
        {
            _port.Held = between;
            await HoldAsync(Rounds);
            _port.Held = null;
            await HoldAsync(Rounds);
        }
    }

    [Fact]
    public async Task What_has_really_jumped_is_told_after_it_was_asked_again()
    {
        await _bus.OpenAsync(Cancel);
        await HoldAsync(Rounds);
        _port.Values["T"] = 12;
        await HoldAsync(Rounds);
        var before = _port.Asked;
        await HoldAsync(Rounds);
        Assert.Equal(Rounds * _probes.Count, _port.Asked - before);
    }

    /// <summary>Takes rounds of all probes; each value is its own.</summary>
    private async Task HoldAsync(int rounds)
    {
        for (var round = 0; round < rounds; round++)
        {
            foreach (var (probe, ask) in _probes)
            {
                var sample = await TakeAsync(probe);
                Assert.True(sample.Value == _port.Values[ask], $"{ask} in round {round}: {sample}");
            }
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

        _time.Advance(TimeSpan.FromSeconds(1));
        return await sample;
    }

    /// <summary>Answers each question at once, with what it holds back first.</summary>
    private sealed class SlippingPort : IPort
    {
        private IPortSink? _sink;

        public Dictionary<string, double> Values { get; } = new() { ["T"] = 45.2, ["PH"] = 9.81, ["ORP"] = -655 };

        /// <summary>A line that is given instead of the next answer, which is given instead of the one after it, and so on; null for none.</summary>
        public string? Held { get; set; }

        public int Asked { get; private set; }

        public void Start(IPortSink sink) => _sink = sink;

        public void Restart(Action whenEmpty) => whenEmpty();

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            Asked++;
            var line = Values[Encoding.ASCII.GetString(bytes.Span).TrimEnd('\r', '?')].ToString(CultureInfo.InvariantCulture);
            (line, Held) = Held is { } held ? (held, line) : (line, null);
            _sink!.Received(Encoding.ASCII.GetBytes(line + "\r\n"));
            return ValueTask.CompletedTask;
        }

        public void Dispose()
        {
        }
    }
}
