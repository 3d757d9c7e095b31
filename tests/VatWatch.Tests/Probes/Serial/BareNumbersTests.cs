using System.Globalization;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Serial;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>
/// Three questions on one port whose answers are bare numbers, from instruments that change their manner while they run: late by up to eighteen reply timeouts,
/// dripping, silent. In made-up time.
/// </summary>
public sealed class BareNumbersTests
{
    /// <summary>Instruments; VATWATCH_CASES=1000 is the full size.</summary>
    private static readonly int Lines = int.Parse(Environment.GetEnvironmentVariable("VATWATCH_CASES") ?? "60", CultureInfo.InvariantCulture);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(10);
    private static readonly TimeSpan Every = TimeSpan.FromMilliseconds(200);

    private readonly FakeTimeProvider _time = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task No_number_is_given_to_another_question_and_no_end_of_a_line_is_a_number()
    {
        var instruments = Enumerable.Range(0, Lines).Select(seed => new MoodyInstrument(_time, seed)).ToList();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        var readers = instruments.SelectMany(instrument => Start(instrument, stop.Token)).ToList();
        for (var passed = TimeSpan.Zero; passed < TimeSpan.FromSeconds(30); passed += Step)
        {
            _time.Advance(Step);
            instruments.ForEach(instrument => instrument.Deliver());
            await LetRunAsync();
            Assert.DoesNotContain(readers, reader => reader.Run.IsFaulted);
        }

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Task.WhenAll(readers.Select(reader => reader.Run)));
        var wrong = readers.SelectMany(reader => reader.Wrong).ToList();
        TestContext.Current.TestOutputHelper?.WriteLine($"{readers.Sum(reader => reader.Good)} good; wrong: {string.Join(", ", wrong)}");
        Assert.Empty(wrong);
        Assert.InRange(readers.Sum(reader => reader.Good), Lines * 60, int.MaxValue);
    }

    private List<Reader> Start(MoodyInstrument instrument, CancellationToken cancel)
    {
        var settings = new SerialSettings { Port = "/dev/null", ReplyTimeout = MoodyInstrument.ReplyTimeout, ReopenAfterSilence = TimeSpan.FromHours(1) };
        var bus = new SerialBus(new BusId("bench"), settings, _time, _ => instrument);
        var probes = MoodyInstrument.Values.Select(each => SerialBench.Text(
            bus, each.Ask.ToLowerInvariant(), Quantity.Temperature, $$"""{ "ask": "{{each.Ask}}?\\r", "pattern": "^(?<value>[-+0-9.]+)$", "unit": "°C" }""", Every.TotalSeconds)).ToList();
        bus.OpenAsync(cancel).AsTask().Wait(cancel);
        return [.. probes.Zip(MoodyInstrument.Values, (probe, value) => new Reader(probe, value.Least, value.Least + 0.1, _time, cancel))];
    }

    private static async Task LetRunAsync()
    {
        for (var calm = 0; calm < 3; calm = ThreadPool.PendingWorkItemCount == 0 ? calm + 1 : 0)
        {
            await Task.Yield();
        }
    }

    private sealed class Reader
    {
        private readonly FakeTimeProvider _time;
        private readonly double _least;
        private readonly double _most;
        private readonly List<string> _wrong = [];
        private readonly string _name;

        public Reader(IProbe probe, double least, double most, FakeTimeProvider time, CancellationToken cancel)
        {
            (_time, _least, _most, _name) = (time, least, most, probe.Definition.Id.ToString());
            Run = Task.Run(() => ReadAsync(probe, cancel), Cancel);
        }

        public Task Run { get; }

        public int Good { get; private set; }

        public IReadOnlyList<string> Wrong => _wrong;

        private async Task ReadAsync(IProbe probe, CancellationToken cancel)
        {
            var start = _time.GetTimestamp();
            while (true)
            {
                if ((await probe.TakeSampleAsync(cancel)).Value is { } value)
                {
                    if (value >= _least && value <= _most)
                    {
                        Good++;
                    }
                    else
                    {
                        _wrong.Add($"{_name}={value} after {_time.GetElapsedTime(start).TotalSeconds:0.00} s");
                    }
                }

                var since = _time.GetElapsedTime(start);
                await Task.Delay(Every - TimeSpan.FromTicks(since.Ticks % Every.Ticks), _time, cancel);
            }
        }
    }
}
