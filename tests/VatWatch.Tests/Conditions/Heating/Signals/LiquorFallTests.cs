using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Signals;

public sealed class LiquorFallTests
{
    private readonly LiquorFall _fall = new();
    private int _minute;

    [Fact]
    public void Cold_yarn_is_a_step_with_its_size()
    {
        // Heat-balance reference, worked example 5: 2 kg dry and 3 kg water at 20 °C take 0.72 K within 1 to 3 min.
        Assert.Equal(FallKind.Step, Through(46, 46, 45.6, 45.28, 45.28)[^1]);
        Assert.Equal(0.72, _fall.DropK, 0.05);
        Assert.Equal(TimeSpan.FromMinutes(1), _fall.Since);
    }

    [Fact]
    public void A_probe_in_air_is_told_within_five_minutes_and_until_it_is_back()
    {
        // Towards a room of 20 °C with a time constant of 5 min; heat-balance reference: more than 0.5 K/min.
        var kinds = Through([.. Enumerable.Range(0, 12).Select(i => i < 3 ? 46 : 20 + 26 * Math.Exp(-(i - 2) / 5.0))]);
        Assert.Contains(FallKind.OutOfLiquor, kinds[..8]);
        Assert.Equal(FallKind.OutOfLiquor, Through(20.5, 20.5, 20.5)[^1]);
        Assert.Equal(FallKind.None, Through(30, 45.8, 46)[^1]);
    }

    [Fact]
    public void A_fifth_of_cold_water_is_a_step()
    {
        Assert.DoesNotContain(FallKind.OutOfLiquor, Through(46, 46, 43.5, 41, 40.6, 40.6, 40.6));
        Assert.Equal(5.4, _fall.DropK, 0.3);
    }

    [Fact]
    public void A_fall_to_the_room_within_one_reading_is_no_cold_water() => Assert.Equal(FallKind.OutOfLiquor, Through(46, 46, 20.3, 20.1)[^1]);

    [Fact]
    public void A_fall_that_an_entry_explains_is_no_probe_in_air()
    {
        _fall.Explain(TimeSpan.Zero, isLiquor: true);
        Assert.DoesNotContain(FallKind.OutOfLiquor, Through(46, 40, 34, 33.8, 33.8));
    }

    [Fact]
    public void A_probe_in_air_is_not_taken_for_a_cold_vat_because_hours_have_passed()
    {
        Through(46, 46, 20.3, 20.1);
        Assert.All(Through([.. Enumerable.Repeat(20.1, 300)]), kind => Assert.Equal(FallKind.OutOfLiquor, kind));
        _fall.Explain(TimeSpan.FromMinutes(304), isLiquor: false);
        Assert.Equal(FallKind.OutOfLiquor, Through(20.1)[^1]);
        _fall.Explain(TimeSpan.FromMinutes(305), isLiquor: true);
        Assert.Equal(FallKind.None, Through(20.1)[^1]);
    }

    [Theory]
    [InlineData(36, true)]
    [InlineData(28, true)]
    // A warmer corner of the studio.
    [InlineData(23.8, false)]
    public void A_probe_is_back_when_it_jumps_to_what_the_liquor_may_have_cooled_to(double jumpsToC, bool isBack)
    {
        Through([46, 46, 20.3, .. Enumerable.Repeat(20.1, 6 * 60)]);
        Assert.Equal(isBack ? FallKind.None : FallKind.OutOfLiquor, Through([22, .. Enumerable.Repeat(jumpsToC, 6)])[^1]);
    }

    [Fact]
    public void A_stray_value_that_ends_is_no_fall()
    {
        // Two of a minute's six readings show 85 °C, then two of the next.
        Assert.DoesNotContain(FallKind.OutOfLiquor, Through(42, 42.1, 56.4, 56.5, 42.3, 42.4, 42.5));
        Assert.Equal(FallKind.OutOfLiquor, Through([.. Enumerable.Repeat(43.0, 12), 20.3, 20.1])[^1]);
    }

    [Fact]
    public void A_hand_that_warms_the_probe_does_not_put_it_back()
    {
        Through([46, 46, 20.3, .. Enumerable.Repeat(20.1, 6 * 60)]);
        Assert.All(Through(26, 32, 33, 31, 29, 27.5, 26, 25, 24, 23, 22.5, 22), kind => Assert.Equal(FallKind.OutOfLiquor, kind));
    }

    [Theory]
    [InlineData(10, false)]
    [InlineData(33, true)]
    public void A_heater_that_is_switched_on_begins_anew_where_the_vat_may_be_as_cold_as_is_shown(int hours, bool mayBe)
    {
        Through([46, 46, 20.3, .. Enumerable.Repeat(20.1, hours * 60)]);
        _fall.Reconsider();
        Assert.Equal(mayBe ? FallKind.None : FallKind.OutOfLiquor, _fall.Kind);
    }

    [Theory]
    // In the warm air under a lid, by a part of the liquor's rise; and a vat that was topped up with a third of cold water and warms on.
    [InlineData(0.4, false)]
    [InlineData(1, true)]
    public void A_probe_is_not_back_because_the_air_beside_a_heated_vat_has_become_as_warm_as_the_vat_had_been(double partOfTheRise, bool isBack)
    {
        const double rises = 0.22;
        Rising([.. Enumerable.Range(0, 40).Select(minute => 25 + rises * minute)]);
        Assert.Equal(FallKind.OutOfLiquor, Rising(30, 27, 25.5, 25.5)[^1]);
        Assert.Equal(isBack ? FallKind.None : FallKind.OutOfLiquor, Rising([.. Enumerable.Range(0, 120).Select(minute => 25.5 + partOfTheRise * rises * minute)])[^1]);

        FallKind[] Rising(params double[] liquorC) => Through(rises, liquorC);
    }

    [Fact]
    public void A_probe_that_is_put_back_into_a_vat_that_was_heated_meanwhile_is_back()
    {
        Through(0.22, [33, 33.2, 33.4, 29, 26, 25, 25]);
        Assert.Equal(FallKind.OutOfLiquor, Through(0, [.. Enumerable.Range(0, 90).Select(minute => 25 + 0.09 * minute)])[^1]);
        Assert.Equal(FallKind.None, Through(0, [44, 47, 47.2, 47.4, 47.6, 47.8])[^1]);
    }

    [Fact]
    public void The_fastest_natural_loss_is_none()
    {
        // Heat-balance reference, case A open: 3.0 K/h = 0.05 K/min.
        Assert.All(Through([.. Enumerable.Range(0, 60).Select(i => 46 - 0.05 * i)]), kind => Assert.Equal(FallKind.None, kind));
    }

    [Fact]
    public void A_heater_that_goes_off_is_no_fall()
    {
        for (var i = 0; i < 30; i++)
        {
            _fall.Add(new LiquorMean(TimeSpan.FromMinutes(i), 45 - 0.02 * i, null, 6), expectedKPerMinute: 0.25, 20, 0.05);
            Assert.Equal(FallKind.None, _fall.Kind);
        }
    }

    private FallKind[] Through(params double[] liquorC) => Through(0.0, liquorC);

    private FallKind[] Through(double expectedKPerMinute, double[] liquorC) => [.. liquorC.Select(value =>
    {
        _fall.Add(new LiquorMean(TimeSpan.FromMinutes(_minute++), value, null, 6), expectedKPerMinute, 20, 0.05);
        return _fall.Kind;
    })];
}
