using VatWatch.Daemon.Plans;
using VatWatch.Ledger;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Tests.Plans;

/// <summary>150 L for wool: 2 g/L of indigo, 25 meq/L, 60 g of reducing agent.</summary>
public sealed class DayAdditionsTests
{
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);

    private static readonly VatDefinition Vat = new()
    {
        Id = new("weld-yard"),
        Name = "Weld Yard",
        VolumeLitres = 150,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new(40, 48, 49),
        Probes = [],
    };

    [Fact]
    public void A_few_dips_of_little_take_nothing_that_must_be_made_good() => Assert.Empty(For(Contents(60), new Goods(300, "wool", 2)));

    [Fact]
    public void Dye_is_given_when_a_fifth_of_it_is_gone_and_brings_it_back()
    {
        // 2.5 g for 1 kg of wool from 1 g/L in 5 min, with the root of the time: 3.6 kg from 2 g/L in 10 min take 25 g of 300 g a dip, so the fifth is gone with the third.
        var first = For(Contents(60), new Goods(3600, "wool", 8))[0];
        Assert.Equal(3, first.AfterDips);
        var stock = first.Doses.Single(dose => dose.Material == "stock");
        Assert.InRange(stock.Amount * DayAdditions.StockGramsPerLitre, 54, 78);
    }

    [Fact]
    public void What_is_worth_giving_is_given_in_one_pause_which_the_reducing_agent_makes_longer()
    {
        var additions = For(Contents(8), new Goods(3000, "wool", 8));
        var sharpen = additions.First(one => one.Doses.Any(dose => dose.Material == "reducing-agent"));
        Assert.Equal(TimeSpan.FromMinutes(30), sharpen.Wait);
        Assert.All(additions, one => Assert.All(one.Doses, dose => Assert.True(dose.Amount > 0)));
        Assert.All(additions.Where(one => one.Doses.All(dose => dose.Material != "reducing-agent")), one => Assert.Equal(TimeSpan.FromMinutes(15), one.Wait));
    }

    [Fact]
    public void A_ferment_is_not_sharpened_and_nothing_is_given_after_the_last_dip()
    {
        var plan = Plan(new Goods(3000, "wool", 8));
        var additions = DayAdditions.For(Vat with { Reducer = ReducingAgent.Fermentation }, Contents(0), plan, 45);
        Assert.NotEmpty(additions);
        Assert.All(additions, one => Assert.DoesNotContain(one.Doses, dose => dose.Material == "reducing-agent"));
        Assert.All(additions, one => Assert.InRange(one.AfterDips, 1, plan.Dips.Count() - 1));
    }

    [Theory]
    [InlineData(3, false)]
    [InlineData(5, true)]
    public void A_vat_that_wants_something_after_most_dips_is_said_to_be_too_weak(int additions, bool isWeak)
    {
        var goods = new Goods(3000, "wool", 8);
        var plan = Plan(goods) with { Additions = [.. Enumerable.Range(1, additions).Select(dips => new PlannedAddition(dips, Nine, Nine, []))] };
        var text = new DayText(Vat, Heat, new([goods], Nine, 45), plan, DisplayUnits.Si, TimeZoneInfo.Utc);
        Assert.Equal(isWeak, text.Assumptions().Any(sentence => sentence.Contains("too weak for these goods", StringComparison.Ordinal)));
    }

    private static IReadOnlyList<(int AfterDips, TimeSpan Wait, IReadOnlyList<PlannedDose> Doses)> For(VatBalance contents, params Goods[] goods) => DayAdditions.For(Vat, contents, Plan(goods), 45);

    private static VatHeat Heat { get; } = new(1440, 15, 3.15, 0.1, 535_226, 20, 5) { OpenLossWPerK = 11, RoomIsMeasured = true };

    private static DayPlan Plan(params Goods[] goods) => new DayPlanner(Vat, Heat, DisplayUnits.Si).Plan(new(goods, Nine, 45)).Plan!;

    private static VatBalance Contents(double reducerGrams)
    {
        static Holding Of(double value, string unit) => new(value, value, value, unit, []);
        return new(Nine, Of(150, "L"), Of(300, "g"), Of(25, "meq/L"), Of(12, "mmol/L"), Of(reducerGrams, "g"));
    }
}
