using VatWatch.Conditions.Heating.Learning;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Heating.Learning;

public sealed class HeatPriorTests
{
    [Fact]
    public void The_heat_capacity_of_the_reference_vat_is_that_of_the_reference()
    {
        // Heat-balance reference, section 1: 125 L, bin and gear 535 kJ/K.
        var prior = HeatPrior.Of(SampleVats.MadderLane() with { VolumeLitres = 125 });
        Assert.Equal(535_000, prior.CapacityJPerK, 3_000.0);
    }

    [Fact]
    public void A_watt_and_a_kelvin_an_hour_are_those_of_the_reference()
    {
        // Heat-balance reference, section 1: 1 K/h = 148.7 W at 535 kJ/K.
        var prior = HeatPrior.Of(SampleVats.MadderLane() with { VolumeLitres = 125 });
        Assert.Equal(148.7, prior.Watts(1), 1.0);
        Assert.Equal(1, prior.KPerHour(prior.Watts(1)), 1e-12);
    }

    [Fact]
    public void Taking_the_lid_off_costs_what_the_reference_says()
    {
        // Heat-balance reference, section 10: about 160 W at 46 °C from evaporation; convection and radiation add 4.4 W/m²K on 0.196 m².
        var prior = HeatPrior.Of(SampleVats.MadderLane() with { VolumeLitres = 125 });
        Assert.InRange(prior.OpenLidW(46, 20), 150, 210);
    }

    [Fact]
    public void A_nameplate_narrows_the_power_and_its_absence_leaves_it_wide()
    {
        Assert.InRange(HeatPrior.Of(SampleVats.MadderLane() with { HeaterWatts = 1200 }).PowerSigmaW, 50, 150);
        Assert.InRange(HeatPrior.Of(SampleVats.MadderLane() with { HeaterWatts = null }).PowerSigmaW, 500, 1000);
    }
}
