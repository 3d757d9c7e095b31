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
        Assert.Equal(0.5, one.Hours(23, 27)!.Value, 1e-9); // 4 K at 8 K/h
        Assert.Null(one.Hours(20, 27));
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

    private static IEnumerable<(DateTimeOffset At, double C)> Quarters(params double[] means) => means.Select((c, i) => (Evening.AddMinutes(15 * i), c));
}
