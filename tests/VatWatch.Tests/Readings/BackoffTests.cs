using VatWatch.Readings;

namespace VatWatch.Tests.Readings;

public sealed class BackoffTests
{
    [Fact]
    public void Pauses_double_up_to_the_longest_and_begin_again()
    {
        var backoff = new Backoff(TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(30), new Random(7));
        foreach (var wanted in new[] { 0.5, 1, 2, 4, 8, 16, 30, 30, 30 })
        {
            Assert.InRange(backoff.Next().TotalSeconds, wanted, wanted * 1.25);
        }

        backoff.Reset();
        Assert.InRange(backoff.Next().TotalSeconds, 0.5, 0.625);
    }
}
