using Microsoft.Extensions.Hosting.Internal;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Service;
using VatWatch.Pipeline.Supervision;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Service;

public sealed class ServiceNotifierTests : IDisposable
{
    private readonly NotifyListener _manager = new();
    private readonly ApplicationLifetime _lifetime = new(NullLogger<ApplicationLifetime>.Instance);
    private readonly FakeTimeProvider _time = new();
    private readonly List<string> _stuck = [];
    private readonly ServiceNotifier _notifier;

    public ServiceNotifierTests() =>
        _notifier = new(new ServiceSocket(_manager.Address, TimeSpan.FromSeconds(60)), () => _stuck, _lifetime, _time, NullLogger<ServiceNotifier>.Instance);

    [Fact]
    public async Task It_tells_ready_once_started_then_feeds_and_tells_that_it_stops()
    {
        await _notifier.StartAsync(CancellationToken.None);
        Assert.False(_manager.Waits);
        _lifetime.NotifyStarted();
        Assert.StartsWith("READY=1\n", await _manager.HearAsync(), StringComparison.Ordinal);
        Assert.Equal("WATCHDOG=1", await _manager.HearAsync());
        _lifetime.StopApplication();
        Assert.Equal("STOPPING=1", await _manager.HearAsync());
        await _notifier.StopAsync(CancellationToken.None);
    }

    [Fact]
    public async Task A_stage_without_progress_stops_the_feeding_until_it_goes_on()
    {
        Assert.True(_notifier.Feed());
        Assert.Equal("WATCHDOG=1", await _manager.HearAsync());
        _stuck.Add("bus bench");
        Assert.False(_notifier.Feed());
        Assert.Equal("STATUS=No progress: bus bench", await _manager.HearAsync());
        Assert.False(_notifier.Feed());
        Assert.False(_manager.Waits);
        _stuck.Clear();
        Assert.True(_notifier.Feed());
        Assert.Equal("STATUS=Watching", await _manager.HearAsync());
        Assert.Equal("WATCHDOG=1", await _manager.HearAsync());
    }

    [Fact]
    public async Task A_stage_that_really_hangs_keeps_the_watchdog_from_being_fed()
    {
        var (hanging, sound) = (new HangingStage("bus bench", _time), new HangingStage("clock", _time) { Rests = true });
        using var supervisor = new StageSupervisor([hanging, sound], new StageOptions(), _time, _lifetime, NullLogger<StageSupervisor>.Instance);
        using var notifier = new ServiceNotifier(
            new ServiceSocket(_manager.Address, TimeSpan.FromSeconds(60)), () => supervisor.Stuck, _lifetime, _time, NullLogger<ServiceNotifier>.Instance);
        await supervisor.StartAsync(CancellationToken.None);
        await Task.WhenAll(hanging.Begun, sound.Begun).WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
        Assert.True(notifier.Feed());
        Assert.Equal("WATCHDOG=1", await _manager.HearAsync());
        _time.Advance(HangingStage.Limit * 2);
        Assert.False(notifier.Feed());
        Assert.Equal("STATUS=No progress: bus bench", await _manager.HearAsync());
        await supervisor.StopAsync(CancellationToken.None);
    }

    public void Dispose()
    {
        _notifier.Dispose();
        _manager.Dispose();
    }

    /// <summary>Beats once and never again, or rests; ends when it is told to.</summary>
    private sealed class HangingStage(string name, TimeProvider time) : IStage
    {
        public static readonly TimeSpan Limit = TimeSpan.FromSeconds(30);

        private readonly TaskCompletionSource _begun = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public bool Rests { get; init; }

        public Task Begun => _begun.Task;

        public string Name => name;

        public Pulse Pulse { get; } = new(Limit, time);

        public Task RunAsync(CancellationToken cancel)
        {
            Pulse.Tick();
            if (Rests)
            {
                Pulse.Rest();
            }

            _begun.SetResult();
            return Task.Delay(Timeout.InfiniteTimeSpan, time, cancel);
        }
    }
}
