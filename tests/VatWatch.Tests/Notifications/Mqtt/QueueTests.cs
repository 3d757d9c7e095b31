using Microsoft.Extensions.Time.Testing;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Commands;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>The small parts that decide what waits, what goes first and for how long.</summary>
public sealed class QueueTests
{
    [Fact]
    public void A_newer_value_takes_the_place_of_one_that_waits_and_keeps_its_turn()
    {
        var book = new LatestValues<string, string>();
        Assert.False(book.Set("a", "a1"));
        Assert.False(book.Set("b", "b1"));
        Assert.True(book.Set("a", "a2"));
        Assert.Equal(["a2", "b1"], Drain(book));
        book.MarkAll();
        Assert.False(book.Set("c", "c1"));
        Assert.True(book.Set("b", "b2"));
        Assert.Equal(["a2", "b2", "c1"], Drain(book));
        Assert.Empty(Drain(book));
    }

    [Fact]
    public void A_full_queue_drops_the_oldest_and_the_newest_of_a_quiet_probe_comes_back_first()
    {
        var queue = new MeasurementQueue(3);
        Assert.False(queue.Enqueue(RunningLink.Liquor(1) with { Probe = new ProbeId("quiet") }));
        for (var i = 2; i <= 3; i++)
        {
            Assert.False(queue.Enqueue(RunningLink.Liquor(i)));
        }

        Assert.True(queue.Enqueue(RunningLink.Liquor(4)));
        queue.MarkNewest();
        queue.MarkNewest();
        Assert.Equal([1d, 2, 3, 4], Drain(queue));
        queue.MarkNewest();
        Assert.Equal([1d, 4], Drain(queue).Order());
    }

    [Fact]
    public void Twenty_commands_at_once_then_one_a_second()
    {
        var time = new FakeTimeProvider();
        var rate = new CommandRate(time);
        Assert.Equal(20, Enumerable.Range(0, 50).Count(_ => rate.TryTake()));
        time.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(3, Enumerable.Range(0, 50).Count(_ => rate.TryTake()));
        time.Advance(TimeSpan.FromHours(1));
        Assert.Equal(20, Enumerable.Range(0, 50).Count(_ => rate.TryTake()));
    }

    private static List<string> Drain(LatestValues<string, string> book)
    {
        List<string> all = [];
        while (book.TryTake(out var value))
        {
            all.Add(value);
        }

        return all;
    }

    private static List<double> Drain(MeasurementQueue queue)
    {
        List<double> all = [];
        while (queue.TryTake(out var measurement))
        {
            all.Add(measurement.Value!.Value);
        }

        return all;
    }
}
