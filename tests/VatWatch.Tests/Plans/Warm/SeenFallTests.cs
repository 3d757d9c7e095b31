using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

public sealed class SeenFallTests
{
    private static readonly DateTimeOffset Morning = new(2031, 3, 14, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_fall_is_reckoned_from_where_the_vat_was_last_held()
    {
        // Held at 44 to 44.5 °C until 8 h, then 1.5 K/h down to 19:45.
        var seen = SeenFall.In(Quarters(56, hours => hours < 2 ? 44 + hours % 0.5 : 44 - 1.5 * (hours - 2)))!;
        Assert.Equal(11.5, seen.Hours, 1.0);
        Assert.Equal(1.5, (seen.FromC - seen.ToC) / seen.Hours, 0.1);
        Assert.Equal(26.375, seen.ToC, 1e-9);
    }

    [Fact]
    public void A_gap_in_it_does_no_harm() =>
        Assert.Equal(26.375, SeenFall.In(Quarters(56, hours => hours < 2 ? 44 : 44 - 1.5 * (hours - 2)).Where((_, i) => i is < 10 or > 50))!.ToC, 1e-9);

    [Fact]
    public void Cold_water_is_no_loss() =>
        Assert.Equal(1, SeenFall.In(Quarters(56, hours => 44 - hours - (hours < 5 ? 0 : 6))) is { } seen ? (seen.FromC - seen.ToC) / seen.Hours : 0, 1e-9);

    [Fact]
    public void A_vat_that_is_heated_again_or_stands_still_does_not_fall()
    {
        Assert.Null(SeenFall.In(Quarters(56, hours => hours < 10 ? 44 - 1.5 * hours : 29 + 3 * (hours - 10))));
        Assert.Null(SeenFall.In(Quarters(56, hours => 30 - hours / 10)));
        Assert.Null(SeenFall.In(Quarters(4, hours => 44 - 3 * hours)));
        Assert.Null(SeenFall.In([]));
    }

    private static IEnumerable<(DateTimeOffset At, double C)> Quarters(int count, Func<double, double> c) =>
        Enumerable.Range(0, count).Select(i => (Morning.AddMinutes(15 * i), c(i / 4.0)));
}
