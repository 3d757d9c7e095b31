using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Day;

/// <summary>The vat of the heat-balance reference (125 L, 535,226 J/K), open: 11 W/K, 1440 W, room 20 °C; work at 45 °C, the band begins at 40 °C.</summary>
public sealed class DayPlannerTests
{
    private const double Capacity = ReferenceVat.CapacityJPerK;
    private const double WetPerKilogram = 1360 + 2.25 * 4184; // wool, and 2.25 times its weight of water at 20 °C (4.1848 kJ/(kg K))
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);
    private static readonly VatHeat Heat = ReferenceVat.Heat;

    private static readonly VatDefinition Vat = ReferenceVat.From(40);

    [Fact]
    public void A_small_load_takes_its_dips_and_the_recoveries_between_them()
    {
        // Three dips of 10 min, 10 min to clear after each but the last, whose airing of 10 min ends the work: 3·10 + 2·10 + 10 min.
        var day = Plan(new Goods(500, "wool", 3));
        Assert.Equal(Nine.AddMinutes(60), day.Ends);
        Assert.Equal([0, 20, 40], day.Dips.Select(dip => (dip.In - Nine).TotalMinutes));
        Assert.Empty(day.Rests);
    }

    [Fact]
    public void A_dip_cools_the_liquor_as_the_mixing_rule_and_the_losses_say()
    {
        // Equations 5 and 4 of the reference by hand: 2 kg wool with 4.5 kg of water at 20 °C into 45 °C, then 10 min without the heater.
        var dip = Plan(new Goods(2000, "wool", 1)).Dips.Single();
        var yarn = 2 * WetPerKilogram;
        var mixed = (Capacity * 45 + yarn * 20) / (Capacity + yarn);
        Assert.Equal(45, dip.LiquorC);
        Assert.Equal(20 + (mixed - 20) * Math.Exp(-11 * 600 / Capacity), dip.CooledC, 0.01);
    }

    [Fact]
    public void The_next_dip_waits_for_warmth()
    {
        // So warm that the cold goods leave it at the bottom of its band: 40 °C and c/C · 20 K.
        var day = Plan(Heat with { PowerW = 200 }, 41.7, new Goods(2000, "wool", 3));
        var needed = 40 + 2 * WetPerKilogram / Capacity * 20;
        Assert.All(day.Dips.Skip(1), dip => Assert.Equal(needed, dip.LiquorC, 0.01));
        Assert.All(day.Dips.Skip(1), dip => Assert.True(dip.Waited > TimeSpan.Zero));
        Assert.All(day.Dips, dip => Assert.InRange(dip.CooledC, 39.75, 41)); // at the bottom of the band when they go in, then 10 min of losses: 220 W, 0.25 K
    }

    [Fact]
    public void Goods_too_heavy_for_the_liquor_are_divided_evenly()
    {
        // 125 L at 30 L/kg hold 4.17 kg; 9 kg make three loads of 3 kg.
        var day = Plan(new Goods(9000, "wool", 2));
        Assert.Equal([3000, 3000, 3000], day.Loads.Select(load => load.Goods.Grams));
        Assert.All(day.Loads, load => Assert.Equal((3, 2), (load.Of, load.Dips.Count)));
    }

    [Fact]
    public void The_darkest_goods_go_first()
    {
        var day = Plan(new Goods(500, "wool", 2), new Goods(500, "cotton", 6), new Goods(500, "silk", 4));
        Assert.Equal(["cotton", "silk", "wool"], day.Loads.Select(load => load.Goods.Kind));
        Assert.Equal("cotton", day.Loads[day.Dips.First().Load - 1].Goods.Kind);
    }

    [Fact]
    public void One_load_dips_while_another_airs()
    {
        var day = Plan(new DayWish([new(500, "wool", 2), new(500, "silk", 2)], Nine, 45) { Airing = TimeSpan.FromMinutes(40) });
        Assert.Equal([1, 2, 1, 2], day.Dips.Select(dip => dip.Load));
        Assert.All(day.Dips.Zip(day.Dips.Skip(1)), pair => Assert.True(pair.Second.In >= pair.First.Out + TimeSpan.FromMinutes(10)));
        Assert.All(day.Loads, load => Assert.All(load.Dips.Zip(load.Dips.Skip(1)), pair => Assert.True(pair.Second.In >= pair.First.Aired)));
    }

    [Fact]
    public void After_three_hours_of_work_the_vat_rests_for_one()
    {
        var day = Plan(new Goods(500, "wool", 12));
        var (from, to) = Assert.Single(day.Rests);
        Assert.InRange((from - Nine).TotalMinutes, 170, 180);
        Assert.Equal(TimeSpan.FromHours(1), to - from);
        Assert.DoesNotContain(day.Dips, dip => dip.Out > from && dip.In < to);
    }

    [Fact]
    public void For_the_last_dip_alone_nobody_waits_until_the_vat_has_rested() => Assert.Empty(Plan(new Goods(500, "wool", 10)).Rests);

    [Fact]
    public void The_end_has_a_range()
    {
        var day = Plan(new Goods(500, "wool", 5));
        Assert.True(day.EndsEarly <= day.Ends && day.Ends < day.EndsLate);
    }

    [Fact]
    public void The_lid_is_on_while_the_vat_waits()
    {
        // 200 W less the covered vat's 3.15 W/K, not the open one's 11 W/K, bring it back; a share of it that is not mixed makes that longer.
        var wait = Plan(Heat with { PowerW = 200 }, 41.7, new Goods(2000, "wool", 3)).Dips.Last();
        var cooled = Plan(Heat with { PowerW = 200 }, 41.7, new Goods(2000, "wool", 3)).Dips.ElementAt(1).CooledC;
        var end = 20 + 200 / 3.15;
        Assert.Equal(-Capacity / 0.965 / 3.15 * Math.Log((end - wait.LiquorC) / (end - cooled)) / 60, (wait.In - Plan(Heat with { PowerW = 200 }, 41.7, new Goods(2000, "wool", 3)).Dips.ElementAt(1).Out).TotalMinutes, 0.2);
    }

    [Fact]
    public void What_is_added_on_the_way_holds_the_next_dip_until_it_has_worked()
    {
        IReadOnlyList<PlannedDose> doses = [new("soda-ash", 12)];
        var plain = Plan(new Goods(500, "wool", 3));
        var day = Plan(new DayWish([new(500, "wool", 3)], Nine, 45) { Additions = [(2, TimeSpan.FromMinutes(30), doses)] });
        var addition = Assert.Single(day.Additions);
        Assert.Equal((2, Nine.AddMinutes(30), Nine.AddMinutes(60)), (addition.AfterDips, addition.From, addition.To));
        Assert.Equal(Nine.AddMinutes(60), day.Dips.Last().In);
        Assert.Equal(plain.Ends.AddMinutes(20), day.Ends);
        Assert.Same(doses, addition.Doses);
    }

    [Fact]
    public void A_vat_below_its_band_is_to_be_warmed_first() =>
        Assert.Contains("warm it first", new DayPlanner(Vat, Heat, DisplayUnits.Si).Plan(new([new(500, "wool", 2)], Nine, 39)).Refused, StringComparison.Ordinal);

    [Fact]
    public void A_heater_that_does_not_keep_up_is_refused() =>
        Assert.Contains("does not bring the liquor back", new DayPlanner(Vat, Heat with { PowerW = 50 }, DisplayUnits.Si).Plan(new([new(2000, "wool", 6)], Nine, 42)).Refused, StringComparison.Ordinal);

    /// <summary>5 loads of 30 dips are 150 dips of 20 min: 50 h.</summary>
    [Fact]
    public void More_dips_than_two_days_hold_are_refused_as_that() =>
        Assert.Contains("makes 150 dips in 5 loads, which take longer than 48 h", new DayPlanner(Vat, Heat, DisplayUnits.Si).Plan(new([new(20_000, "wool", 30)], Nine, 45)).Refused, StringComparison.Ordinal);

    [Fact]
    public void Nobody_dyes_at_the_limit() =>
        Assert.Contains("not below its limit of 49.0 °C", new DayPlanner(Vat, Heat, DisplayUnits.Si).Plan(new([new(500, "wool", 2)], Nine, 49)).Refused, StringComparison.Ordinal);

    [Fact]
    public void More_loads_than_a_plan_holds_are_refused() =>
        Assert.Contains("Plan it as several days", new DayPlanner(Vat, Heat, DisplayUnits.Si).Plan(new([new(100_000, "wool", 2), new(100_000, "wool", 2), new(100_000, "wool", 2)], Nine, 45)).Refused, StringComparison.Ordinal);

    private static DayPlan Plan(params Goods[] goods) => Plan(Heat, 45, goods);

    private static DayPlan Plan(VatHeat heat, double liquorC, params Goods[] goods) => new DayPlanner(Vat, heat, DisplayUnits.Si).Plan(new(goods, Nine, liquorC)).Plan!;

    private static DayPlan Plan(DayWish wish) => new DayPlanner(Vat, Heat, DisplayUnits.Si).Plan(wish).Plan!;
}
