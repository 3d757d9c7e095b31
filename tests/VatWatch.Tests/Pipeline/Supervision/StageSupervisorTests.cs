using Microsoft.Extensions.Hosting.Internal;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Tests.Pipeline.Supervision;

public sealed class StageSupervisorTests
{
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public async Task A_stage_that_hangs_is_named_as_stuck_and_one_that_failed_is_not()
    {
        var (hanging, failing) = (new BeatOnce("hanging", _time, fails: false), new BeatOnce("failing", _time, fails: true));
        using var lifetime = new Lifetime();
        using var supervisor = new StageSupervisor([hanging, failing], new StageOptions(), _time, lifetime.Host, NullLogger<StageSupervisor>.Instance);
        var failed = new TaskCompletionSource();
        supervisor.StageFailed += (_, _) => failed.TrySetResult();
        await supervisor.StartAsync(CancellationToken.None);
        await Task.WhenAll(hanging.Begun.Task, failed.Task).WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
        Assert.Empty(supervisor.Stuck);
        _time.Advance(BeatOnce.Limit + TimeSpan.FromMilliseconds(1));
        Assert.Equal(["hanging"], supervisor.Stuck);
        hanging.End.SetResult();
        await supervisor.StopAsync(CancellationToken.None);
    }

    /// <summary>Beats once, then hangs until it is let go, or fails.</summary>
    private sealed class BeatOnce(string name, TimeProvider time, bool fails) : IStage
    {
        public static readonly TimeSpan Limit = TimeSpan.FromMilliseconds(500);

        public string Name => name;

        public Pulse Pulse { get; } = new(Limit, time);

        public TaskCompletionSource Begun { get; } = new();

        public TaskCompletionSource End { get; } = new();

        public Task RunAsync(CancellationToken cancel)
        {
            Pulse.Tick();
            Begun.TrySetResult();
            return fails ? Task.FromException(new IOException("gone")) : End.Task;
        }
    }

    private sealed class Lifetime : IDisposable
    {
        public ApplicationLifetime Host { get; } = new(NullLogger<ApplicationLifetime>.Instance);

        public void Dispose() => Host.StopApplication();
    }
}
