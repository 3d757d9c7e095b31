using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Signals;

public sealed class MeanAggregatorTests
{
    [Fact]
    public void A_mean_stands_at_the_mean_of_its_sample_times()
    {
        var means = new MeanAggregator(TimeSpan.FromMinutes(1));
        Assert.Null(means.Add(TimeSpan.FromSeconds(0), 40, null));
        Assert.Null(means.Add(TimeSpan.FromSeconds(50), 41, null));
        var mean = Assert.NotNull(means.Add(TimeSpan.FromSeconds(61), 44, 20));
        Assert.Equal(40.5, mean.LiquorC);
        Assert.Equal(25, mean.At.TotalSeconds);
        Assert.Equal(2, mean.Count);
    }
}
