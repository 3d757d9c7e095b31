using Microsoft.Extensions.Time.Testing;

namespace VatWatch.Tests.Time;

public sealed class AsyncAutoResetEventTests
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(30);
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void Set_here_lets_the_waiter_go_on_before_it_returns()
    {
        var wake = new AsyncAutoResetEvent();
        var waiting = wake.WaitAsync(Limit, _time, TestContext.Current.CancellationToken);
        Assert.False(waiting.IsCompleted);

        wake.SetHere();

        Assert.True(waiting.IsCompletedSuccessfully);
    }

    [Fact]
    public async Task Set_lets_the_waiter_go_on_and_is_remembered_once_when_nobody_waits()
    {
        var wake = new AsyncAutoResetEvent();
        var waiting = wake.WaitAsync(Limit, _time, TestContext.Current.CancellationToken);
        wake.Set();
        await waiting;
        wake.SetHere();
        wake.SetHere();

        Assert.True(wake.WaitAsync(Limit, _time, TestContext.Current.CancellationToken).IsCompletedSuccessfully);
        Assert.False(wake.WaitAsync(Limit, _time, TestContext.Current.CancellationToken).IsCompleted);
    }

    [Fact]
    public async Task A_wait_that_nobody_ends_is_over_at_its_limit()
    {
        var waiting = new AsyncAutoResetEvent().WaitAsync(Limit, _time, TestContext.Current.CancellationToken);
        Assert.False(waiting.IsCompleted);

        _time.Advance(Limit);

        await waiting;
    }
}
