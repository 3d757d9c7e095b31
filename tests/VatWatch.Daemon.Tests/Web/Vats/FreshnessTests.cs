using VatWatch.Daemon.Web.Vats;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Web.Vats;

public sealed class FreshnessTests
{
    [Theory]
    [InlineData(1, 1, 15)]
    [InlineData(10, 1, 30)]
    [InlineData(10, 120, 240)]
    public void A_number_is_old_past_three_periods_but_not_within_15_s_or_two_real_seconds_of_a_simulation(int everySeconds, double speed, int expectedSeconds)
    {
        var probe = new ProbeDefinition(new("p"), new("v"), Quantity.Ph, new("b"), "text-line", TimeSpan.FromSeconds(everySeconds), SampleUnit.Canonical(Quantity.Ph));

        Assert.Equal(TimeSpan.FromSeconds(expectedSeconds), new Freshness(speed).Limit(probe));
    }
}
