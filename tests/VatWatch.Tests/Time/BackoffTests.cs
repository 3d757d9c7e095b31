namespace VatWatch.Tests.Time;

public sealed class BackoffTests
{
    [Fact]
    public void Waits_double_to_the_longest_and_begin_again_after_a_reset()
    {
        var backoff = new Backoff(TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(30), () => 0.5);
        Assert.Equal([0.5, 1, 2, 4, 8, 16, 30, 30], Enumerable.Range(0, 8).Select(_ => backoff.Next().TotalSeconds));
        backoff.Reset();
        Assert.Equal(0.5, backoff.Next().TotalSeconds);
    }

    [Theory]
    [InlineData(0, 0.4)]
    [InlineData(1, 0.6)]
    public void Chance_moves_a_wait_by_a_fifth(double chance, double seconds) =>
        Assert.Equal(seconds, new Backoff(TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(30), () => chance).Next().TotalSeconds, 9);
}
