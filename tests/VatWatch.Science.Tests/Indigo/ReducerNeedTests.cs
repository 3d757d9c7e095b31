using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// Expected figures: worked by hand from the mass ratios tested in ReducingAgentTests.
public sealed class ReducerNeedTests
{
    [Fact]
    public void Pure_indigo_by_theory()
    {
        Assert.Equal(51.53, ReducerNeed.ForDye(ReducingAgent.ThioureaDioxide, 125).HighGrams, 0.005);
        Assert.Equal(82.98, ReducerNeed.ForDye(ReducingAgent.Dithionite, 125).HighGrams, 0.005);
    }

    [Fact]
    public void The_assay_of_the_agent_raises_what_is_weighed()
        => Assert.Equal(94.30, ReducerNeed.ForDye(ReducingAgent.Dithionite, 125, agentAssay: 0.88).HighGrams, 0.005);

    [Fact]
    public void Natural_indigo_with_an_excess_is_a_range_from_theory_up()
    {
        var need = ReducerNeed.ForDye(ReducingAgent.ThioureaDioxide, 125, dyeAssay: 0.40, excess: 3);
        Assert.Equal(61.84, need.HighGrams, 0.005);
        Assert.Equal(61.84 / 3, need.LowGrams, 0.005);
    }

    // Recipes: Knecht, Rawson and Loewenthal 1920 (zinc), Mairet 1916 recipe 16 (copperas); factors 3.3 and 1.6 by division.
    [Theory]
    [InlineData("zinc", 8, 16, 0.60, 3.3)]
    [InlineData("copperas", 20, 6, 1.0, 1.6)]
    public void Old_recipes_use_the_excess_that_was_worked_out_for_them(string agent, double agentWeight, double dyeWeight, double assay, double factor)
    {
        var theory = ReducerNeed.ForDye(ReducingAgent.All.Single(a => a.Substance.Name == agent), dyeWeight, assay).LowGrams;
        Assert.Equal(factor, agentWeight / theory, 0.05);
    }

    [Fact]
    public void Oxygen_burns_between_the_best_and_the_sure_case()
    {
        var use = ReducerNeed.ForOxygen(ReducingAgent.ThioureaDioxide, 1.137);
        Assert.Equal(3.84, use.LowGrams, 0.005);
        Assert.Equal(7.68, use.HighGrams, 0.005);
        Assert.Equal(6.18, ReducerNeed.ForOxygen(ReducingAgent.Dithionite, 1.137).HighGrams, 0.01);
    }

    [Fact]
    public void An_uncertain_oxygen_load_widens_the_range_and_keeps_its_flag()
    {
        var use = ReducerNeed.ForOxygen(ReducingAgent.ThioureaDioxide, new MassRange(0.5, 2, true), 0.5);
        Assert.Equal(0.5 * 3.379 / 0.5, use.LowGrams, 0.002);
        Assert.Equal(2 * 6.757 / 0.5, use.HighGrams, 0.005);
        Assert.True(use.Extrapolated);
    }

    [Theory]
    [InlineData(-1, 1, 1, 1)]
    [InlineData(double.NaN, 1, 1, 1)]
    [InlineData(100, 0, 1, 1)]
    [InlineData(100, 40, 1, 1)]
    [InlineData(100, 1, 0.9, 1)]
    [InlineData(100, 1, 1, 1.1)]
    public void What_cannot_be_is_refused(double dyeGrams, double dyeAssay, double excess, double agentAssay)
        => Assert.Throws<ArgumentOutOfRangeException>(
            () => ReducerNeed.ForDye(ReducingAgent.ThioureaDioxide, dyeGrams, dyeAssay, excess, agentAssay));
}
