using VatWatch.Probes.Simulation;

namespace VatWatch.Tests.Probes.Simulation;

public sealed class SimulatedActTests
{
    private const double Litres = 125;

    [Fact]
    public void A_lid_taken_off_costs_a_kelvin_an_hour_and_more_at_46_degrees()
    {
        // Heat-balance reference, section 10: lid off adds about 160 W at 46 °C, 1.1 K/h, by evaporation; bare convection adds to it.
        var covered = Cooling();
        var open = Cooling(new SimulatedAct(TimeSpan.Zero, SimulatedActKind.LidOff));
        Assert.InRange(covered - open, 0.9, 1.7);
        Assert.Equal(covered, Cooling(new SimulatedAct(TimeSpan.Zero, SimulatedActKind.LidOff), new SimulatedAct(TimeSpan.Zero, SimulatedActKind.LidOn)), 1e-9);
    }

    [Fact]
    public void Cold_yarn_takes_what_the_reference_says()
    {
        // Heat-balance reference, worked example 5: 2 kg dry and 3 kg water at 20 °C: -0.72 K.
        var vat = Vat(new SimulatedAct(TimeSpan.FromMinutes(1), SimulatedActKind.Dip, 2));
        vat.Advance(TimeSpan.FromMinutes(1));
        var before = vat.TemperatureC;
        vat.Advance(TimeSpan.FromSeconds(10));
        Assert.Equal(-0.72, vat.TemperatureC - before, 0.03);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(1.2)]
    [InlineData(2)]
    public void Orp_rises_by_tens_of_millivolts_while_yarn_gives_off_its_air_and_comes_back_within_the_hour(double yarnKg)
    {
        var dip = TimeSpan.FromHours(8);
        var vat = Vat(new SimulatedAct(dip, SimulatedActKind.Dip, yarnKg));
        vat.Advance(dip);
        var before = vat.OrpMillivolts;
        var curve = Enumerable.Range(0, 60).Select(_ =>
        {
            vat.Advance(TimeSpan.FromMinutes(1));
            return vat.OrpMillivolts - before;
        }).ToArray();
        Assert.InRange(curve.Max(), 15, 120);
        Assert.InRange(Array.IndexOf(curve, curve.Max()), 3, 15);
        Assert.InRange(curve[^1], -6, 6);
    }

    [Fact]
    public void A_heater_that_sticks_does_not_heed_its_thermostat_and_one_that_fails_gives_nothing()
    {
        var stuck = Vat(heater: 1500, new SimulatedAct(TimeSpan.FromMinutes(30), SimulatedActKind.HeaterSticks));
        stuck.Advance(TimeSpan.FromHours(2));
        Assert.True(stuck.HeaterOn && stuck.TemperatureC > 50);
        var failed = Vat(heater: 1500, new SimulatedAct(TimeSpan.Zero, SimulatedActKind.HeaterFails));
        failed.Advance(TimeSpan.FromHours(6));
        Assert.True(failed.HeaterOn && failed.TemperatureC < 44);
    }

    [Fact]
    public void Sharpening_lowers_the_potential_of_a_tired_vat()
    {
        SimulationScenario tired = new() { StartC = 44, AmbientC = 20, HeaterWatts = 0, ReducerGramsPerLitre = 0.02 };
        var alone = new VatModel(tired, Litres);
        var fed = new VatModel(tired with { Acts = [new(TimeSpan.FromHours(1), SimulatedActKind.Sharpen, 40)] }, Litres);
        alone.Advance(TimeSpan.FromHours(3));
        fed.Advance(TimeSpan.FromHours(3));
        Assert.True(fed.OrpMillivolts < alone.OrpMillivolts - 10, $"{fed.OrpMillivolts} against {alone.OrpMillivolts} mV");
    }

    [Fact]
    public void Supply_and_room_swing_as_far_as_they_are_told()
    {
        var vat = new VatModel(new SimulationScenario { StartC = 20, AmbientC = 18, RoomSwingK = 2, HeaterWatts = 0 }, Litres);
        Assert.Equal(20, vat.AmbientC, 0.01);
        vat.Advance(TimeSpan.FromHours(12));
        Assert.Equal(16, vat.AmbientC, 0.01);
    }

    private static double Cooling(params SimulatedAct[] acts)
    {
        var vat = Vat(acts);
        var before = vat.TemperatureC;
        vat.Advance(TimeSpan.FromHours(1));
        return vat.TemperatureC - before;
    }

    private static VatModel Vat(params SimulatedAct[] acts) => Vat(0, acts);

    private static VatModel Vat(double heater, params SimulatedAct[] acts) =>
        new(new SimulationScenario { StartC = heater > 0 ? 43 : 46, AmbientC = 20, HeaterWatts = heater, ThermostatC = 46, Acts = acts }, Litres);
}
