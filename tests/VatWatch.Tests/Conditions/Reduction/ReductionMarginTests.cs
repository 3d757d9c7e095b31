using VatWatch.Conditions.Reduction;
using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Electrodes;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class ReductionMarginTests
{
    private readonly VatDefinition _vat = SampleVats.MadderLane();

    [Fact]
    public void The_margin_is_that_of_the_reference_vector()
    {
        // Indigo chemistry reference, W11: pH 11, -665.0 mV against 3 M, 25 °C: -59.9 mV, share 0.9906.
        var margin = ReductionMargin.Of(_vat, ReferenceElectrode.SilverChloride3M, -665, 11, 25);
        Assert.NotNull(margin);
        Assert.Equal(-59.9, margin.Millivolts, 0.3);
        Assert.Equal(0.9906, margin.ReducedShare, 0.0005);
        Assert.Equal(40, margin.UncertaintyMillivolts);
    }

    [Fact]
    public void Another_reference_electrode_is_converted_first()
    {
        // Indigo chemistry reference, W9: -580 mV against SCE is -543 mV against 3 M at 25 °C.
        var margin = ReductionMargin.Of(_vat, ReferenceElectrode.SaturatedCalomel, -580, 11, 25);
        Assert.Equal(-543, margin!.OrpMillivolts, 1.0);
    }

    [Fact]
    public void Where_it_means_nothing_there_is_none()
    {
        Assert.Null(ReductionMargin.Of(_vat with { Reducer = ReducingAgent.Fermentation }, ReferenceElectrode.SilverChloride3M, -540, 9, 45));
        Assert.Null(ReductionMargin.Of(_vat, null, -700, 10, 45));
        Assert.Null(ReductionMargin.Of(_vat, ReferenceElectrode.SilverChloride3M, -700, null, 45));
    }

    [Fact]
    public void A_good_day_is_no_distance_from_the_good_days()
    {
        var baseline = GoodBaseline.Of([.. Enumerable.Range(0, 60).Select(i => new GoodReading(-700 + i % 7, 10 + 0.01 * (i % 5), 44))]);
        Assert.NotNull(baseline);
        var today = baseline.DistanceOf(-697, 10.02, 44);
        Assert.Equal(0, today.OrpMillivolts, 1.5);
        Assert.Equal(0, today.Ph, 0.011);
    }

    [Fact]
    public void A_weaker_day_is_told_in_millivolts_and_spreads()
    {
        var baseline = GoodBaseline.Of([.. Enumerable.Range(0, 60).Select(i => new GoodReading(-700 + i % 7, 10, 45))])!;
        var today = baseline.DistanceOf(-660, 9.5, 45);

        // Half a pH lower the same state reads about 15 mV higher (MidpointModel: -30 mV per pH), so 37 of the 40 are less by 15.
        Assert.Equal(37 - 15.5, today.OrpMillivolts, 2.0);
        Assert.True(today.OrpSpreads > 3);
        Assert.Equal(-0.5, today.Ph, 0.01);
    }

    [Fact]
    public void Too_few_readings_make_no_baseline() => Assert.Null(GoodBaseline.Of([new(-700, 10, 45)]));

    [Fact]
    public void The_pH_at_another_temperature_agrees_with_the_solved_bath()
    {
        // Our own equilibrium solver for 2 g/L of soda ash, VatWatch.Science.Carbonate.
        var bath = new BathComposition(0, 0).Add(AlkaliProduct.SodaAsh, 2 * 100, 100, 25);
        var at25 = BathEquilibrium.Solve(bath, 25).Ph;
        var at45 = BathEquilibrium.Solve(bath, 45).Ph;
        Assert.Equal(at45, UsedBath.PhAt(at25, 25, 45), 0.04);
    }
}
