using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;

namespace VatWatch.Tests.Conditions.Heating;

/// <summary>Case D of the heat-balance reference: 125 L, 535,226 J/K, 3.15 W/K, 1440 W, room 20 °C; the liquor at 46 °C.</summary>
public sealed class DipOutlookTests
{
    private static readonly TimeSpan TenMinutes = TimeSpan.FromMinutes(10);

    // 2 kg of wool (2720 J/K) with 3 kg of water (12 552 J/K) at 20 °C takes 15 272 / 550 498 of 26 K; with 6 kg of water 27 824 / 563 050.
    [Fact]
    public void The_drop_runs_from_well_drained_to_dripping_yarn()
    {
        var outlook = Of(2000);
        Assert.Equal(0.72, outlook.Drop.Low, 0.005);
        Assert.Equal(1.285, outlook.Drop.High, 0.005);
        Assert.Equal(46 - 1.285, outlook.After.Low, 0.005);
        Assert.Equal(46 - 0.72, outlook.After.High, 0.005);
    }

    // (1440 - 3.15 * 25.6) / 535 226 is 9.14 K/h; 1.00 K, half-way between the two, takes 6.6 min.
    [Fact]
    public void The_heater_makes_the_drop_good_in_the_time_its_power_gives()
    {
        var recovery = Of(2000).Recovery;
        Assert.Equal(6.6, recovery!.Middle.TotalMinutes, 0.1);
        Assert.Equal(0.72 / 9.14 * 60, recovery.Early.TotalMinutes, 0.1);
        Assert.Equal(1.285 / 9.14 * 60, recovery.Late!.Value.TotalMinutes, 0.1);
    }

    [Fact]
    public void A_heater_whose_power_is_not_well_known_widens_the_time()
    {
        var sure = Of(2000).Recovery!;
        var unsure = Of(2000, heat: HeatOutlookTests.Outlook(46, on: true, heatingSigma: 2)).Recovery!;
        Assert.True(unsure.Early < sure.Early && unsure.Late > sure.Late);
    }

    [Fact]
    public void A_vat_that_loses_more_than_the_heater_gives_does_not_come_back() =>
        Assert.Null(Of(2000, heat: HeatOutlookTests.Outlook(46, on: true, lossFactor: 20)).Recovery);

    // Mairet's three hours of work hold nine dips of ten minutes with as much between them.
    [Fact]
    public void A_strong_heater_leaves_the_working_time_as_the_end()
    {
        var outlook = Of(2000);
        Assert.Equal((9, 9), (outlook.FewestDips, outlook.MostDips));
        Assert.Equal(6, Of(2000, dip: TimeSpan.FromMinutes(20), airing: TenMinutes).MostDips);
    }

    [Fact]
    public void Heavy_yarn_in_a_vat_near_the_lower_end_of_its_band_leaves_few_dips()
    {
        var outlook = Of(30_000, lowestC: 40);
        Assert.Equal((0, 0), (outlook.FewestDips, outlook.MostDips));
        Assert.InRange(Of(14_000, lowestC: 40).FewestDips, 0, Of(14_000, lowestC: 40).MostDips);
    }

    [Fact]
    public void Orp_is_expected_back_as_it_came_back_before()
    {
        var outlook = Of(2000, recoveries: [Back(20), Back(null), Back(28), Back(24)]);
        Assert.Equal((TimeSpan.FromMinutes(24), 3), (outlook.OrpBack, outlook.OrpDips));
        Assert.Null(Of(2000).OrpBack);
    }

    [Fact]
    public void What_was_assumed_is_said_in_the_dyers_units()
    {
        var sentences = Of(2000).Assumptions;
        Assert.Contains("2.00 kg of dry yarn carries 3.00 kg to 6.00 kg of water once drained, and is as warm as the room, 20.0 °C.", sentences);
        Assert.Contains("No dip of this session is over yet, so dips of 10 min with as long between them are taken.", sentences);
        Assert.Contains(Of(2000, dip: TimeSpan.FromMinutes(7)).Assumptions, one => one.StartsWith("Dips of 7 min with 7 min between them", StringComparison.Ordinal));
    }

    private static Recovery Back(double? minutes) =>
        new(new Stamp(DateTimeOffset.UnixEpoch, TimeSpan.Zero, true), -700, 40, minutes is { } known ? TimeSpan.FromMinutes(known) : null, 0);

    private static DipOutlook Of(
        double yarnGrams, HeatOutlook? heat = null, double lowestC = 38, TimeSpan? dip = null, TimeSpan? airing = null, IReadOnlyList<Recovery>? recoveries = null) =>
        DipOutlook.Of(heat ?? HeatOutlookTests.Outlook(46, on: true), 46, lowestC, yarnGrams, dip, airing, recoveries ?? [], DisplayUnits.Si);
}
