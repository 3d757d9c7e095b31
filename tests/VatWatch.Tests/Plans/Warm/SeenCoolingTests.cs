using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

public sealed class SeenCoolingTests
{
    private static readonly DateTimeOffset Evening = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_steady_fall_is_seen_with_its_middle()
    {
        var seen = SeenCooling.In(Minutes(Enumerable.Range(0, 31).Select(i => 30 - i / 60.0)))!;
        Assert.Equal(-1, seen.KPerHour, 1e-9);
        Assert.Equal(29.75, seen.MiddleC, 1e-9);
        Assert.InRange(seen.SigmaKPerHour, 0.08, 0.1);
    }

    [Fact]
    public void A_coarse_thermometer_says_less() =>
        Assert.True(SeenCooling.In(Minutes(Enumerable.Range(0, 31).Select(i => Math.Round((30 - i / 30.0) * 2) / 2)))!.SigmaKPerHour > 0.35);

    [Fact]
    public void Minutes_before_a_hand_or_a_gap_do_not_count()
    {
        var before = Enumerable.Range(0, 20).Select(i => 35 - i / 10.0);
        var after = Enumerable.Range(0, 20).Select(i => 30 - i / 60.0);
        Assert.Equal(-1, SeenCooling.In(Minutes(before.Concat(after)))!.KPerHour, 1e-9);
        Assert.Equal(-1, SeenCooling.In([.. Minutes(before), .. Minutes(after).Select(point => (point.At.AddHours(1), point.C))])!.KPerHour, 1e-9);
    }

    [Fact]
    public void A_vat_that_was_heated_until_just_now_cools_from_its_highest_on() =>
        Assert.Equal(-1, SeenCooling.In(Minutes([.. Enumerable.Range(0, 20).Select(i => 29 + i / 20.0), .. Enumerable.Range(0, 21).Select(i => 30 - i / 60.0)]))!.KPerHour, 1e-9);

    [Fact]
    public void A_vat_that_does_not_fall_or_was_seen_for_too_short_tells_nothing()
    {
        Assert.Null(SeenCooling.In(Minutes(Enumerable.Range(0, 30).Select(i => 30 + i / 60.0))));
        Assert.Null(SeenCooling.In(Minutes(Enumerable.Range(0, 8).Select(i => 30 - i / 60.0))));
        Assert.Null(SeenCooling.In([]));
    }

    private static IEnumerable<(DateTimeOffset At, double C)> Minutes(IEnumerable<double> means) => means.Select((c, i) => (Evening.AddMinutes(i), c));
}
