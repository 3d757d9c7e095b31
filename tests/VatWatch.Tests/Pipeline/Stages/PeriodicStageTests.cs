using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Pipeline.Stages;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class PeriodicStageTests : IDisposable
{
    private readonly FakeTimeProvider _time = new();
    private readonly RecordedLog _log = new();
    private readonly CancellationTokenSource _stop = new();
    private int _turns;
    private Func<Task> _turn = () => Task.CompletedTask;

    public void Dispose() => _stop.Dispose();

    [Fact]
    public async Task The_first_turn_comes_at_once_and_the_others_at_their_pace()
    {
        var running = Stage().RunAsync(_stop.Token);
        Assert.Equal(1, _turns);
        _time.Advance(TimeSpan.FromSeconds(4));
        Assert.Equal(1, _turns);
        _time.Advance(TimeSpan.FromSeconds(1));
        await Eventually.TrueAsync(() => _turns == 2, "the second turn");
        await StopAsync(running);
    }

    [Fact]
    public async Task A_store_that_cannot_be_used_is_logged_once_until_it_can_and_ends_nothing()
    {
        _turn = () => _turns is 4 ? Task.CompletedTask : throw new StoreUnavailableException("the disk is full");
        var running = Stage().RunAsync(_stop.Token);
        for (var turn = 2; turn <= 6; turn++)
        {
            _time.Advance(TimeSpan.FromSeconds(5));
            await Eventually.TrueAsync(() => _turns == turn, "the next turn");
        }

        await StopAsync(running);
        Assert.Equal(2, _log.Sentences.Count);
        Assert.All(_log.Sentences, sentence => Assert.Equal("Part 'calibrations' goes on with what it knows and tries again in 5 s, because the store could not be used: the disk is full", sentence));
    }

    [Fact]
    public async Task Any_other_fault_is_the_supervisor_s()
    {
        _turn = () => throw new InvalidOperationException("broken");
        await Assert.ThrowsAsync<InvalidOperationException>(() => Stage().RunAsync(_stop.Token));
    }

    [Fact]
    public async Task A_turn_without_end_is_stuck_after_its_limit()
    {
        var never = new TaskCompletionSource();
        _turn = () => never.Task;
        var stage = Stage();
        var running = stage.RunAsync(_stop.Token);
        _time.Advance(TimeSpan.FromMinutes(1));
        Assert.False(stage.Pulse.IsStuck);
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.True(stage.Pulse.IsStuck);
        never.SetResult();
        await StopAsync(running);
    }

    [Fact]
    public async Task The_last_turn_is_taken_when_it_is_stopped_and_is_not_waited_for_beyond_two_seconds()
    {
        var last = 0;
        var stopped = Stage(_ => Task.FromResult(last++)).RunAsync(_stop.Token);
        await StopAsync(stopped);
        Assert.Equal(1, last);

        using var stop = new CancellationTokenSource();
        var hanging = Stage(cancel => Task.Delay(Timeout.Infinite, cancel)).RunAsync(stop.Token);
        await stop.CancelAsync();
        Assert.False(hanging.IsCompleted);
        _time.Advance(TimeSpan.FromSeconds(2));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => hanging.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken));
        Assert.Contains("it took longer than 2 s at the end", Assert.Single(_log.Sentences), StringComparison.Ordinal);
    }

    private PeriodicStage Stage(Func<CancellationToken, Task>? last = null) => new("calibrations", TimeSpan.FromSeconds(5), TimeSpan.FromMinutes(1), TurnAsync, _time, _log) { LastTurn = last };

    private Task TurnAsync(CancellationToken cancel)
    {
        Interlocked.Increment(ref _turns);
        return _turn();
    }

    private async Task StopAsync(Task running)
    {
        await _stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken));
    }

    private sealed class RecordedLog : ILogger<PeriodicStage>
    {
        public List<string> Sentences { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Sentences.Add(formatter(state, exception));
    }
}
