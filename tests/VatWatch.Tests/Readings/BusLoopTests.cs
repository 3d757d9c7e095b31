using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Testing;

namespace VatWatch.Tests.Readings;

/// <summary>The loop against a bus made by hand, in made-up time.</summary>
public sealed class BusLoopTests : IDisposable
{
    private readonly FakeTimeProvider _time = new();
    private readonly HandMadeBus _bus = new();
    private readonly ProbeCounters _counters = new();
    private readonly SentenceLogger _log = new();
    private readonly List<Reading> _readings = [];
    private readonly CancellationTokenSource _stop = new();
    private readonly WatchClock _clock;

    private bool _hasMoved;

    public BusLoopTests() => _clock = new WatchClock(_time);

    public void Dispose() => _stop.Dispose();

    [Fact]
    public async Task Readings_keep_their_beat_however_long_each_takes()
    {
        var probe = new HandMadeProbe("liquor", 1, async (time, cancel) =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(300), time, cancel);
            return Sample.Good(45);
        }, _time);
        var loop = Start(probe);
        await AdvanceAsync(TimeSpan.FromSeconds(30));
        await EndAsync(loop);

        Assert.InRange(_readings.Count, 30, 31);
        Assert.All(_readings, (reading, index) =>
            Assert.InRange(reading.Stamp.Monotonic.TotalSeconds, index + 0.29, index + 0.42));
        Assert.Equal(0, _counters.Of(new ProbeId("liquor")).Skipped);
    }

    [Fact]
    public async Task A_late_bus_leaves_beats_out_and_never_bursts()
    {
        var probe = new HandMadeProbe("liquor", 1, async (time, cancel) =>
        {
            await Task.Delay(TimeSpan.FromSeconds(2.5), time, cancel);
            return Sample.Good(45);
        }, _time);
        var loop = Start(probe);
        await AdvanceAsync(TimeSpan.FromSeconds(30));
        await EndAsync(loop);

        Assert.InRange(_readings.Count, 9, 11);
        Assert.All(_readings.Zip(_readings.Skip(1)), pair => Assert.InRange(pair.Second.Stamp.Since(pair.First.Stamp).TotalSeconds, 2.4, 3.2));
        Assert.InRange(_counters.Of(new ProbeId("liquor")).Skipped, 18, 22);
    }

    [Fact]
    public async Task A_bus_that_cannot_be_opened_gives_faults_at_the_beat_and_one_sentence_in_the_log()
    {
        _bus.OpenFailure = "there is no such device";
        var loop = Start(Steady("liquor", 2));
        await AdvanceAsync(TimeSpan.FromSeconds(60));
        Assert.InRange(_readings.Count, 30, 31);
        Assert.All(_readings, reading => Assert.Equal(Sample.Fault("there is no such device"), reading.Sample));

        // 0, 0.5, 1.5, 3.5, then every 3 s, each pause up to a fifth longer or shorter.
        Assert.InRange(_bus.OpenAttempts, 18, 27);
        Assert.Single(_log.Sentences);
        Assert.Equal("Bus 'bench' (by hand) gives no readings: there is no such device; its probes read as faults while it is tried again.", _log.Sentences[0]);

        // However long it was away, it is heard within five seconds: the longest pause and one beat.
        _bus.OpenFailure = null;
        await AdvanceAsync(TimeSpan.FromSeconds(5));
        await EndAsync(loop);
        Assert.Equal(Quality.Good, _readings[^1].Sample.Quality);
        Assert.Equal(2, _log.Sentences.Count);
        Assert.StartsWith("Bus 'bench' (by hand) gives readings again after ", _log.Sentences[1]);
        Assert.Equal(1, _counters.Of(_bus.Id).Opens);
    }

    [Fact]
    public async Task A_loss_is_told_for_every_probe_at_once_and_the_bus_is_opened_again()
    {
        var loop = Start(Steady("liquor", 5), Steady("redox", 7));
        await AdvanceAsync(TimeSpan.FromSeconds(6));
        var before = _readings.Count;
        _bus.Lose("the device hung up");
        await AdvanceUntilAsync(() => Taken() >= before + 2, TimeSpan.FromMilliseconds(200));

        var told = _readings.Skip(before).Take(2).ToList();
        Assert.Equal(["liquor", "redox"], told.Select(reading => reading.Probe.Value).Order());
        Assert.All(told, reading => Assert.Equal(Sample.Fault("the device hung up"), reading.Sample));
        await AdvanceUntilAsync(() => Taken() >= before + 4, TimeSpan.FromSeconds(1));
        await EndAsync(loop);
        Assert.Equal(2, _counters.Of(_bus.Id).Opens);
        Assert.Equal(1, _counters.Of(_bus.Id).Losses);
        Assert.Equal(2, _readings.Skip(before + 2).Count(reading => reading.Sample.Quality == Quality.Good));
        Assert.True(_bus.IsClosed);
    }

    [Fact]
    public async Task A_probe_that_takes_too_long_reads_as_missing_and_the_others_go_on()
    {
        var stuck = new HandMadeProbe("stuck", 1, async (time, cancel) =>
        {
            await Task.Delay(Timeout.InfiniteTimeSpan, time, cancel);
            return Sample.Good(0);
        }, _time);
        var loop = Start(stuck, Steady("liquor", 1));
        await AdvanceAsync(TimeSpan.FromSeconds(130));
        await EndAsync(loop);

        Assert.Equal(2, _counters.Of(new ProbeId("stuck")).Missing);
        Assert.Contains(_readings, reading => reading.Sample == Sample.Missing("no value within 60 s"));
        Assert.InRange(_counters.Of(new ProbeId("liquor")).Good, 2, 3);
        Assert.Equal(0, _counters.Of(_bus.Id).Losses);
    }

    [Fact]
    public async Task A_probe_that_will_not_be_cancelled_costs_the_bus_and_a_close_that_does_not_return_is_left_behind()
    {
        var never = new TaskCompletionSource<Sample>();
        _bus.CloseNeverReturns = true;
        var loop = Start(new HandMadeProbe("stuck", 1, (_, _) => never.Task, _time));
        await AdvanceAsync(TimeSpan.FromSeconds(70));
        await EndAsync(loop);

        Assert.Equal(1, _counters.Of(_bus.Id).Losses);
        Assert.InRange(_counters.Of(_bus.Id).StuckCloses, 1, 2);
        Assert.Equal(2, _counters.Of(_bus.Id).Opens);
        Assert.Contains(_readings, reading => reading.Sample == Sample.Fault("probe 'stuck' has kept the bus for more than 60 s"));
    }

    [Fact]
    public async Task Listening_probes_wait_side_by_side()
    {
        var first = new HandMadeProbe("first", 5, async (time, cancel) =>
        {
            await Task.Delay(TimeSpan.FromSeconds(4), time, cancel);
            return Sample.Good(1);
        }, _time)
        {
            Listens = true,
        };
        var second = new HandMadeProbe("second", 1, (_, _) => Task.FromResult(Sample.Good(2)), _time) { Listens = true };
        var loop = Start(first, second);
        await AdvanceAsync(TimeSpan.FromSeconds(10.5));
        await EndAsync(loop);

        Assert.Equal(11, _counters.Of(new ProbeId("second")).Good);
        Assert.Equal(2, _counters.Of(new ProbeId("first")).Good);
    }

    [Fact]
    public async Task A_change_of_a_probe_is_logged_once_each_way()
    {
        var silent = false;
        var loop = Start(new HandMadeProbe("liquor", 1, (_, _) => Task.FromResult(silent ? Sample.Missing("no answer") : Sample.Good(45)), _time));
        await AdvanceAsync(TimeSpan.FromSeconds(3));
        silent = true;
        await AdvanceAsync(TimeSpan.FromSeconds(5));
        silent = false;
        await AdvanceAsync(TimeSpan.FromSeconds(3));
        await EndAsync(loop);

        Assert.Equal(
            [
                "Bus 'bench' (by hand) is open.",
                "Probe 'liquor' on bus 'bench' (by hand) gives no value: no answer; next try in 1 s.",
                "Probe 'liquor' on bus 'bench' gives values again.",
            ],
            _log.Sentences);
    }

    [Fact]
    public async Task A_fault_of_the_program_ends_the_loop_and_closes_the_bus()
    {
        var loop = Start(new HandMadeProbe("liquor", 1, (_, _) => throw new InvalidCastException("a defect"), _time));
        await Assert.ThrowsAsync<InvalidCastException>(() => loop.WaitAsync(TimeSpan.FromSeconds(10), TestContext.Current.CancellationToken));
        Assert.True(_bus.IsClosed);
    }

    private HandMadeProbe Steady(string id, double every) => new(id, every, (_, _) => Task.FromResult(Sample.Good(45)), _time);

    private Task Start(params HandMadeProbe[] probes)
    {
        void Deliver(Reading reading)
        {
            lock (_readings)
            {
                _readings.Add(reading);
            }
        }

        var loop = new BusLoop(_bus, probes, _clock, _time, new BusLoopOptions(), _counters, Deliver, _log);
        return Task.Run(() => loop.RunAsync(_stop.Token));
    }

    /// <summary>Moves time on in small steps, and lets everything that became due run between them.</summary>
    private async Task AdvanceAsync(TimeSpan by)
    {
        if (!_hasMoved)
        {
            // The loop runs for the first time in this process, perhaps: its code is being made while time stands still.
            _hasMoved = true;
            await Task.Delay(250, TestContext.Current.CancellationToken);
        }

        var step = TimeSpan.FromMilliseconds(100);
        for (var moved = TimeSpan.Zero; moved < by; moved += step)
        {
            await LetRunAsync();
            _time.Advance(step);
        }

        await LetRunAsync();
    }

    /// <summary>As <see cref="AdvanceAsync"/>, but no further than until it has happened; what was woken has as long as a busy machine needs.</summary>
    private async Task AdvanceUntilAsync(Func<bool> happened, TimeSpan within)
    {
        for (var moved = TimeSpan.Zero; !happened() && moved < within; moved += TimeSpan.FromMilliseconds(100))
        {
            await LetRunAsync();
            _time.Advance(TimeSpan.FromMilliseconds(100));
        }

        await Eventually.TrueAsync(happened, "what was woken has run");
    }

    private int Taken()
    {
        lock (_readings)
        {
            return _readings.Count;
        }
    }

    private static async Task LetRunAsync()
    {
        for (var turn = 0; turn < 20; turn++)
        {
            await Task.Yield();
        }

        // On a busy machine four milliseconds may be too few for what was woken.
        await Task.Delay(4, TestContext.Current.CancellationToken);
        for (var turn = 0; turn < 25 && ThreadPool.PendingWorkItemCount > 0; turn++)
        {
            await Task.Delay(2, TestContext.Current.CancellationToken);
        }
    }

    private async Task EndAsync(Task loop)
    {
        await _stop.CancelAsync();
        for (var turn = 0; turn < 100 && !loop.IsCompleted; turn++)
        {
            _time.Advance(TimeSpan.FromMilliseconds(100));
            await LetRunAsync();
        }

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => loop.WaitAsync(TimeSpan.FromSeconds(10), TestContext.Current.CancellationToken));
    }
}
