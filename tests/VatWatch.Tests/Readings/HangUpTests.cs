using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Testing.Instruments;
using VatWatch.Tests.Probes.Serial;

namespace VatWatch.Tests.Readings;

/// <summary>Runs alone: counts threads, handles and processor time of the whole process.</summary>
[CollectionDefinition(nameof(RunsAlone), DisableParallelization = true)]
public sealed class RunsAlone;

/// <summary>Loops on real pseudo-terminals, with plugs pulled and put back, for as long as a night has troubles.</summary>
[Collection(nameof(RunsAlone))]
[Trait("Starts", "processes"), Trait("Runs", "alone")]
public sealed class HangUpTests
{
    private static readonly WatchClock Clock = new(TimeProvider.System);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Fifty_hang_ups_are_seen_and_mended_and_disturb_nobody()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var neighbour = await PtyInstrument.AskedAsync();
        await using var bus = SerialBench.Bus(instrument.Port, """, "replyTimeout": "300 ms" """);
        await using var other = SerialBench.Bus(neighbour.Port);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        var pulled = new Listener();
        var steady = new Listener();
        var counters = new ProbeCounters();
        var calm = new ProbeCounters();
        var loops = Task.WhenAll(
            RunAsync(bus, [Asked(bus, "liquor", "T?", 0.2), Asked(bus, "redox", "ORP?", 0.2)], counters, pulled, stop.Token),
            RunAsync(other, [Asked(other, "steady", "T?", 0.2)], calm, steady, stop.Token));
        await pulled.NextAsync(Quality.Good, 10);

        (int Threads, int Handles) before = default;
        var slowestFault = TimeSpan.Zero;
        var slowestReturn = TimeSpan.Zero;
        for (var round = 0; round < 50; round++)
        {
            if (round == 5)
            {
                before = Count();
            }

            // Every third plug is pulled while the instrument owes an answer, every third while questions pile up.
            var trouble = (round % 3) switch { 1 => "late 0.2", 2 => "busy on", _ => "late 0" };
            await instrument.TellAsync(trouble);
            await Task.Delay(20 * (round % 7), Cancel);
            await instrument.TellAsync("hangup");
            var fault = await pulled.NextAsync(Quality.Fault, 3);
            await instrument.TellAsync("late 0");
            await instrument.TellAsync("busy off");
            await instrument.TellAsync("return");
            var back = await pulled.NextAsync(Quality.Good, 5);
            slowestFault = fault > slowestFault ? fault : slowestFault;
            slowestReturn = back > slowestReturn ? back : slowestReturn;
        }

        var after = Count();
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => loops);
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"fault within {slowestFault.TotalMilliseconds:0} ms, back within {slowestReturn.TotalMilliseconds:0} ms, " +
            $"threads {before.Threads} to {after.Threads}, handles {before.Handles} to {after.Handles}, neighbour's longest gap {steady.LongestGap.TotalMilliseconds:0} ms");

        // Other tests of this process begin and end threads and handles too; what counts is that none is left behind.
        Assert.InRange(after.Threads, 0, before.Threads + 2);
        Assert.InRange(after.Handles, 0, before.Handles + 2);
        Assert.Equal(51, counters.Of(bus.Id).Opens);
        Assert.Equal(0, counters.Of(bus.Id).StuckCloses);

        // 0.2 s is the beat; the rest is what a busy machine of two cores takes.
        Assert.InRange(steady.LongestGap.TotalSeconds, 0, 0.8);
        Assert.Equal(steady.Readings, calm.Of(new ProbeId("steady")).Good);
    }

    [Fact]
    public async Task Six_probes_cost_little_of_a_core()
    {
        await using var asked = await PtyInstrument.AskedAsync();
        await using var streaming = await PtyInstrument.StreamingAsync(2);
        await using var bus = SerialBench.Bus(asked.Port);
        await using var stream = SerialBench.Bus(streaming.Port);
        var listener = new Listener();

        // A brisk start belongs to the compiler.
        await RunSixAsync(0.1, slices: 2, listener);
        var warm = listener.Readings;
        var (share, readings) = (await RunSixAsync(2, slices: 7, listener), listener.Readings - warm);

        TestContext.Current.TestOutputHelper?.WriteLine($"{share * 100:0.00} % of a core");
        Assert.InRange(readings, 30, 50);

        // 0.3 % when optimised and warm. Built for debugging it is more, but still far less than one pending read of SerialPort (2.6 %).
        Assert.InRange(share, 0, 0.015);

        async Task<double> RunSixAsync(double every, int slices, Listener taker)
        {
            using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
            var counters = new ProbeCounters();
            var loops = Task.WhenAll(
                RunAsync(bus, [Asked(bus, "a", "T?", every), Asked(bus, "b", "PH?", every), Asked(bus, "c", "ORP?", every)], counters, taker, stop.Token),
                RunAsync(stream, [Streamed(stream, "d"), Streamed(stream, "e"), Streamed(stream, "f")], counters, taker, stop.Token));
            var shares = new List<double>();
            while (shares.Count < slices)
            {
                shares.Add(await ShareAsync(TimeSpan.FromSeconds(2)));
            }

            await stop.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => loops);

            // The middle one: the compiler works in bursts.
            return shares.Order().ElementAt(slices / 2);
        }
    }

    private static IProbe Asked(IProbeBus bus, string id, string ask, double every) => SerialBench.Text(
        bus, id, Quantity.Temperature, $$"""{ "ask": "{{ask}}\\r", "pattern": "=(?<value>[-+0-9.]+)", "unit": "°C" }""", every);

    private static IProbe Streamed(IProbeBus bus, string id) =>
        SerialBench.Text(bus, id, Quantity.Temperature, """{ "pattern": "^(?<value>[0-9.]+),", "unit": "°C" }""", 2);

    private static Task RunAsync(IProbeBus bus, IProbe[] probes, ProbeCounters counters, Listener listener, CancellationToken cancel)
    {
        var loop = new BusLoop(
            bus, probes, Clock, TimeProvider.System, new BusLoopOptions(), counters, listener.Take, NullLogger<BusLoop>.Instance);
        return Task.Run(() => loop.RunAsync(cancel), cancel);
    }

    private static async Task<double> ShareAsync(TimeSpan time)
    {
        using var self = Process.GetCurrentProcess();
        var before = self.TotalProcessorTime;
        var began = Stopwatch.StartNew();
        await Task.Delay(time, Cancel);
        self.Refresh();
        return (self.TotalProcessorTime - before) / began.Elapsed;
    }

    private static (int Threads, int Handles) Count()
    {
        using var self = Process.GetCurrentProcess();
        return (self.Threads.Count, Directory.GetFiles("/proc/self/fd").Length);
    }

    private sealed class Listener
    {
        private readonly ConcurrentQueue<Reading> _waiting = new();
        private Stamp? _last;

        public int Readings { get; private set; }

        public TimeSpan LongestGap { get; private set; }

        public void Take(Reading reading)
        {
            lock (_waiting)
            {
                Readings++;
                if (_last is { } last && reading.Stamp.Since(last) > LongestGap)
                {
                    LongestGap = reading.Stamp.Since(last);
                }

                _last = reading.Stamp;
                _waiting.Enqueue(reading);
            }
        }

        /// <summary>Waits for a reading of this quality that is taken from now on; returns how long that took.</summary>
        public async Task<TimeSpan> NextAsync(Quality quality, double withinSeconds)
        {
            var began = Stopwatch.StartNew();
            _waiting.Clear();
            while (began.Elapsed.TotalSeconds < withinSeconds)
            {
                while (_waiting.TryDequeue(out var reading))
                {
                    if (reading.Sample.Quality == quality)
                    {
                        return began.Elapsed;
                    }
                }

                await Task.Delay(5, Cancel);
            }

            throw new TimeoutException($"No {quality} reading within {withinSeconds} s.");
        }
    }
}
