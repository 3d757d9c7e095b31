using VatWatch.Science.Heat;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat;

/// <summary>Cold yarn against the worked figures of a separate program (vat of 535 226 J/K at 46 °C); recoveries and dips by hand arithmetic beside each check.</summary>
public sealed class DipPlanTests
{
    private const double CapacityJPerK = 535_226;

    private static readonly TimeSpan TenMinutes = TimeSpan.FromMinutes(10);

    [Theory]
    [InlineData(2, 3, 20, 0.72)]
    [InlineData(4, 8, 18, 1.90)]
    public void Wet_yarn_cools_the_vat_as_computed(double dryKg, double waterKg, double temperatureC, double dropK) =>
        Assert.Equal(dropK, new WetYarn(dryKg, waterKg, temperatureC).DropK(CapacityJPerK, 46), 0.0051);

    // Without losses 1440 W warm 535 226 J/K by 9.69 K/h: a drop of 1.90 K takes 11.8 min.
    [Fact]
    public void The_heater_makes_good_a_dip_in_the_time_its_power_gives()
    {
        var recovery = Plan(1440, new(4, 8, 18), 40).Recovery(46);
        Assert.Equal(1.90 / 9.69 * 60, recovery!.Value.TotalMinutes, 0.1);
        Assert.Null(Plan(0, new(4, 8, 18), 40).Recovery(46));
    }

    // Cold bodies of 28 800 J/K at 20 °C: each takes 28 800 / 564 026 = 5.1 % of what the vat is above 20 °C. Unheated from 46 °C that leaves, dip by dip,
    // 44.67, 43.41, 42.22, 41.08, 40.01 and 38.98 °C: five dips at 40 °C or above.
    [Fact]
    public void Without_a_heater_the_vat_ends_where_the_yarn_has_cooled_it()
    {
        var yarn = new WetYarn(0, 28_800 / VatHeatCapacity.WaterJPerK(1, 20), 20);
        Assert.Equal(5, Plan(0, yarn, 40).DipsBeforeRest(46));
        Assert.Equal(0, Plan(0, yarn, 40).DipsBeforeRest(41));
    }

    // Three hours' work, then an hour's rest (Mairet, A Book on Vegetable Dyes, 1916): 18 dips of ten minutes without airing, 9 with as much airing.
    [Fact]
    public void A_vat_that_keeps_warm_rests_after_three_hours_in_any_case()
    {
        var light = new WetYarn(0.1, 0.2, 20);
        Assert.Equal(9, Plan(1440, light, 40).DipsBeforeRest(46));
        Assert.Equal(18, (Plan(1440, light, 40) with { Airing = TimeSpan.Zero }).DipsBeforeRest(46));
    }

    [Fact]
    public void A_heater_that_works_between_dips_gives_more_of_them_and_never_overheats()
    {
        var heavy = new WetYarn(4, 8, 18);
        var unheated = Plan(0, heavy, 40).DipsBeforeRest(46);
        var heated = Plan(1000, heavy, 40).DipsBeforeRest(46);
        Assert.True(heated > unheated, $"{heated} heated, {unheated} unheated");

        // A mighty heater only brings back the start, so one dip too cold for the band stays too cold.
        Assert.Equal(0, Plan(100_000, heavy, 45).DipsBeforeRest(46));
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new WetYarn(-1, 2, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WetYarn(1, 2, 120));
        Assert.Throws<ArgumentOutOfRangeException>(() => (Plan(0, new(1, 2, 20), 40) with { Dip = TimeSpan.Zero }).DipsBeforeRest(46));
    }

    private static DipPlan Plan(double powerW, WetYarn yarn, double lowestC) =>
        new(new FirstOrderVat(powerW, 0, CapacityJPerK, 20), yarn, lowestC, TenMinutes, TenMinutes);
}
