using Microsoft.Extensions.Logging;
using VatWatch.Probes;

namespace VatWatch.Readings;

/// <summary>
/// Owns one bus: opens it, takes a sample of each probe at its beat, and opens it again after a loss, for as long as it runs. While the bus
/// is away each of its probes gives a fault at each beat, so that silence is seen. Run it once.
/// </summary>
/// <remarks>
/// Beats are counted on the vat's clock, which a simulation may speed up; limits of opening, closing and exchanging on the wall's.
/// Asked probes take turns; listening ones each wait on their own.
/// </remarks>
/// <param name="bus">The bus; the loop opens and closes it, the caller disposes of it.</param>
/// <param name="clock">The vat's clock.</param>
/// <param name="wall">The clock of waits for the device.</param>
/// <param name="options">Limits and pauses.</param>
/// <param name="counters">Counts for the metrics page.</param>
/// <param name="deliver">Takes each reading, possibly from several threads at once; must not block and must not throw.</param>
/// <param name="logger">Changes of state go here, never single readings above Debug.</param>
public sealed class BusLoop(
    IProbeBus bus,
    IReadOnlyList<IProbe> probes,
    WatchClock clock,
    TimeProvider wall,
    BusLoopOptions options,
    ProbeCounters counters,
    Action<Reading> deliver,
    ILogger<BusLoop> logger)
{
    private readonly ReadingPublisher _desk = new(bus, clock, counters, deliver, logger);
    private readonly SampleTaker _taker = new(wall, options);
    private readonly Backoff _backoff = new(options.FirstPause, options.LongestPause, Random.Shared.NextDouble);

    /// <summary>Runs until <paramref name="cancel"/>; anything else that ends it is a defect, and thrown.</summary>
    public async Task RunAsync(CancellationToken cancel)
    {
        var start = clock.Now().Monotonic;
        var schedules = probes.Select(probe => new ProbeSchedule(probe, start)).ToArray();
        try
        {
            var reason = await TryOpenAsync(cancel);
            while (true)
            {
                reason ??= await WatchUntilLostAsync(schedules, cancel);
                _desk.Away(reason);
                await ReportAwayWhileAsync(Task.Delay(_backoff.Next(), wall, cancel), schedules, reason, cancel);
                var opening = TryOpenAsync(cancel);
                await ReportAwayWhileAsync(opening, schedules, reason, cancel);
                reason = await opening;
            }
        }
        finally
        {
            await CloseAsync();
        }
    }

    /// <summary>Opens the bus; null when it is open, else why not.</summary>
    private async Task<string?> TryOpenAsync(CancellationToken cancel)
    {
        using var limited = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        try
        {
            await bus.OpenAsync(limited.Token).AsTask().WaitAsync(options.OpenLimit, wall, cancel);
            counters.Opened(bus.Id);
            _desk.Opened();
            return null;
        }
        catch (BusLostException failure)
        {
            counters.OpenFailed(bus.Id);
            return failure.Message;
        }
        catch (TimeoutException)
        {
            counters.OpenFailed(bus.Id);
            await limited.CancelAsync();
            await CloseAsync();
            return $"opening took longer than {options.OpenLimit.TotalSeconds:0.#} s";
        }
    }

    /// <summary>Takes samples until the bus is lost, and closes it; returns why it was lost.</summary>
    private async Task<string> WatchUntilLostAsync(ProbeSchedule[] schedules, CancellationToken cancel)
    {
        RestartBeat(schedules);
        using var phase = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        var asked = schedules.Where(schedule => !schedule.Probe.Listens).ToArray();
        var tasks = schedules.Where(schedule => schedule.Probe.Listens)
            .Select(schedule => TakeTurnsAsync([schedule], phase.Token))
            .Append(bus.WatchForLossAsync(phase.Token))
            .ToList();
        if (asked.Length > 0)
        {
            tasks.Add(TakeTurnsAsync(asked, phase.Token));
        }

        try
        {
            var first = await Task.WhenAny(tasks);
            await phase.CancelAsync();
            await Task.WhenAll(tasks).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            await first;
            throw new InvalidOperationException($"The watch over bus '{bus.Id}' ended by itself.");
        }
        catch (BusLostException loss)
        {
            cancel.ThrowIfCancellationRequested();
            await CloseAsync();
            counters.Lost(bus.Id);
            if (_desk.HeardSinceOpen)
            {
                _backoff.Reset();
            }

            // The new beat begins with the fault, so that the loss is seen at once.
            RestartBeat(schedules);
            return loss.Message;
        }
    }

    private void RestartBeat(ProbeSchedule[] schedules)
    {
        var now = clock.Now().Monotonic;
        foreach (var schedule in schedules)
        {
            schedule.Restart(now);
        }
    }

    /// <summary>Takes samples of <paramref name="schedules"/> one after the other, whichever is due first.</summary>
    private async Task TakeTurnsAsync(ProbeSchedule[] schedules, CancellationToken cancel)
    {
        while (true)
        {
            var next = schedules.MinBy(schedule => schedule.Due)!;
            await DelayUntilAsync(next.Due, cancel);
            var began = wall.GetTimestamp();
            var sample = await _taker.TakeAsync(next.Probe, cancel);
            _desk.Tell(next.Probe.Definition, sample, wall.GetElapsedTime(began));
            if (next.Probe.Listens && sample.Quality == Quality.Missing)
            {
                // It has listened for a whole period already. Listening on at once, a line is heard when it comes and not at the next beat.
                next.Restart(clock.Now().Monotonic);
            }
            else
            {
                counters.Skipped(next.Probe.Definition.Id, next.Advance(clock.Now().Monotonic));
            }
        }
    }

    /// <summary>Gives a fault for every probe at each of its beats until <paramref name="work"/> is done.</summary>
    private async Task ReportAwayWhileAsync(Task work, ProbeSchedule[] schedules, string reason, CancellationToken cancel)
    {
        while (!work.IsCompleted)
        {
            var now = clock.Now().Monotonic;
            foreach (var schedule in schedules.Where(schedule => schedule.Due <= now))
            {
                _desk.Tell(schedule.Probe.Definition, Sample.Fault(reason), TimeSpan.Zero);
                counters.Skipped(schedule.Probe.Definition.Id, schedule.Advance(now));
            }

            using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
            await Task.WhenAny(work, schedules.Length == 0 ? work : DelayUntilAsync(schedules.Min(schedule => schedule.Due), stop.Token));
            await stop.CancelAsync();
        }

        cancel.ThrowIfCancellationRequested();
        await work.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    private async Task DelayUntilAsync(TimeSpan due, CancellationToken cancel)
    {
        // A timer may fire a little early, so look again.
        for (var rest = due - clock.Now().Monotonic; rest > TimeSpan.Zero; rest = due - clock.Now().Monotonic)
        {
            await Task.Delay(rest < OneMillisecond ? OneMillisecond : rest, clock.Provider, cancel);
        }

        cancel.ThrowIfCancellationRequested();
    }

    /// <summary>Finest wait of a timer; less would be a wait of zero.</summary>
    private static readonly TimeSpan OneMillisecond = TimeSpan.FromMilliseconds(1);

    private async Task CloseAsync()
    {
        var closing = bus.CloseAsync().AsTask();
        try
        {
            await closing.WaitAsync(options.CloseLimit, wall);
        }
        catch (TimeoutException)
        {
            counters.CloseStuck(bus.Id);
            Log.CloseStuck(logger, bus.Id, bus.Device, options.CloseLimit.TotalSeconds);
        }
    }
}

/// <summary>When one probe is due, on the monotonic side of the vat's clock. Keeps its beat: being late never shifts it, and never bursts.</summary>
internal sealed class ProbeSchedule(IProbe probe, TimeSpan start)
{
    public IProbe Probe => probe;

    /// <summary>Next due moment.</summary>
    public TimeSpan Due { get; private set; } = start;

    /// <summary>Begins a new beat at <paramref name="now"/>.</summary>
    public void Restart(TimeSpan now) => Due = now;

    /// <summary>Moves on to the first beat after <paramref name="now"/>; returns how many beats had to be left out.</summary>
    public int Advance(TimeSpan now)
    {
        var period = probe.Definition.Every.Ticks;
        var beats = Math.Max(1, (now - Due).Ticks / period + 1);
        Due += TimeSpan.FromTicks(beats * period);
        return (int)Math.Min(beats - 1, int.MaxValue);
    }
}
