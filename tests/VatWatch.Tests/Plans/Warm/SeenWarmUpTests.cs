using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

public sealed class SeenWarmUpTests
{
    private static readonly DateTimeOffset Evening = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_steady_rise_between_two_holds_is_one_warm_up_without_its_ends()
    {
        var one = Assert.Single(SeenWarmUp.In(Quarters(20, 20, 20.4, 22, 24, 26, 28, 30, 30.5, 30.4, 30.5)));
        Assert.Equal((22, 28), (one.Points[0].C, one.Points[^1].C));
        Assert.Equal(0.75, one.Points[^1].Hours);
        Assert.Equal(6, one.RiseK);
        Assert.Equal(0.5, SeenWarmUp.Time([one], 23, 27, isBegun: true, (_, _) => null)!.Value.TotalHours, 1e-9); // 4 K at 8 K/h
        Assert.Null(SeenWarmUp.Time([one], 20, 27, isBegun: true, (_, _) => null));
    }

    [Fact]
    public void A_gap_ends_a_warm_up() =>
        Assert.Empty(SeenWarmUp.In([.. Quarters(20, 22, 24, 26), .. Quarters(28, 30, 32, 34).Select(point => (point.At.AddHours(3), point.C))]));

    [Fact]
    public void A_thermostat_that_holds_a_vat_makes_none() => Assert.Empty(SeenWarmUp.In(Quarters(44, 44.5, 45, 44.6, 44.2, 44.7, 45.1, 44.8)));

    [Fact]
    public void The_newest_comes_first()
    {
        var seen = SeenWarmUp.In(Quarters(20, 22, 24, 26, 28, 30, 25, 20, 18, 22, 26, 30, 34, 38));
        Assert.Equal([26, 24], seen.Select(one => one.Points[0].C));
        Assert.Equal([8, 4], seen.Select(one => one.RiseK));
    }

    [Fact]
    public void A_balance_takes_its_power_from_the_warm_ups()
    {
        // 8 K/h from 22 to 28 °C in a vat of 3.6 MJ/K are 8000 W; at their mean of 25 °C it loses 100 W/K times 5 K.
        var seen = SeenWarmUp.In(Quarters(20, 20, 20.4, 22, 24, 26, 28, 30, 30.5, 30.4, 30.5));
        var balance = SeenWarmUp.Balance(seen, new(5000, 100, 3.6e6, 20));
        Assert.Equal((8500, 100, 20), (balance.PowerW, balance.LossWPerK, balance.AmbientC));
        Assert.Equal(5000, SeenWarmUp.Balance([], new(5000, 100, 3.6e6, 20)).PowerW);
    }

    private static IEnumerable<(DateTimeOffset At, double C)> Quarters(params double[] means) => means.Select((c, i) => (Evening.AddMinutes(15 * i), c));
}
