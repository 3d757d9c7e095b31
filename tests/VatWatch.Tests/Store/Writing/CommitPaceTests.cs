using Microsoft.Extensions.Time.Testing;
using VatWatch.Store.Writing;

namespace VatWatch.Tests.Store.Writing;

public sealed class CommitPaceTests
{
    [Fact]
    public void Pauses_grow_from_one_second_to_thirty_and_a_success_ends_them()
    {
        var time = new FakeTimeProvider();
        var pace = new CommitPace(TimeSpan.FromSeconds(10), time);
        Assert.Equal([1, 2, 4, 8, 16, 30, 30], Enumerable.Range(0, 7).Select(_ => pace.Failed().TotalSeconds));
        Assert.True(pace.IsFailing);
        pace.Succeeded();
        Assert.False(pace.IsFailing);
        time.Advance(TimeSpan.FromSeconds(4));
        Assert.Equal(TimeSpan.FromSeconds(6), pace.UntilDue);
        Assert.Equal(1, pace.Failed().TotalSeconds);
    }

    [Fact]
    public void The_interval_counts_from_the_beginning_of_a_commit_so_that_a_slow_one_does_not_lengthen_it()
    {
        var time = new FakeTimeProvider();
        var pace = new CommitPace(TimeSpan.FromSeconds(10), time);
        var began = pace.Now;
        time.Advance(TimeSpan.FromSeconds(3));
        pace.Succeeded(began);
        Assert.Equal(TimeSpan.FromSeconds(7), pace.UntilDue);
    }
}
