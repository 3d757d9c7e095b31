using Microsoft.Extensions.Hosting.Internal;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Service;
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

    public void Dispose()
    {
        _notifier.Dispose();
        _manager.Dispose();
    }
}
