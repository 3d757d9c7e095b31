using VatWatch.Probes.Simulation;

namespace VatWatch.Tests.Probes.Simulation;

public sealed class VatModelTests
{
    private const double Gallons40 = 151.4;

    [Fact]
    public void A_heater_left_on_takes_the_vat_through_its_band_and_past_the_limit_in_one_night()
    {
        var vat = new VatModel(new SimulationScenario { StartC = 19, AmbientC = 17 }, Gallons40);
        var inBand = HoursUntil(vat, () => vat.TemperatureC >= 37.8);
        var atLimit = inBand + HoursUntil(vat, () => vat.TemperatureC >= 48.9);

        // Lossless: 151.4 L by 1500 W is 8.4 K/h (heat-balance reference, 3412 BTU/h per kW); losses make it slower.
        Assert.InRange(inBand, 18.8 / 8.4, 3.5);
        Assert.InRange(atLimit, 29.9 / 8.4, 6);
    }

    [Fact]
    public void It_is_reduced_and_alkaline_when_it_comes_into_its_band()
    {
        var vat = new VatModel(new SimulationScenario { StartC = 19, AmbientC = 17 }, Gallons40);
        HoursUntil(vat, () => vat.TemperatureC >= 39);
        Assert.InRange(vat.OrpMillivolts, -800, -665);
        Assert.InRange(vat.Ph, 9.6, 10.4);
    }

    [Fact]
    public void Weeks_of_boiling_and_feeding_leave_numbers_that_a_probe_can_show()
    {
        var feeds = Enumerable.Range(1, 60).Select(day => new SimulatedAct(TimeSpan.FromHours(8 * day), SimulatedActKind.Sharpen, 200)).ToList();
        var vat = new VatModel(new SimulationScenario { StartC = 19, AmbientC = 17, Acts = feeds }, Gallons40);
        for (var hours = 0; hours < 600; hours += 20)
        {
            vat.Advance(TimeSpan.FromHours(20));
            Assert.InRange(vat.Ph, 4.5, 12);
            Assert.InRange(vat.OrpMillivolts, -1000, 400);
            Assert.InRange(vat.TemperatureC, 10, 101);
        }
    }

    [Fact]
    public void Left_open_and_unfed_it_is_oxidised_within_a_few_days()
    {
        var vat = new VatModel(new SimulationScenario { StartC = 40, AmbientC = 18, ThermostatC = 44, Lid = false, ReducerGramsPerLitre = 0.15 }, Gallons40);
        var before = vat.OrpMillivolts;
        vat.Advance(TimeSpan.FromDays(5));
        Assert.True(vat.OrpMillivolts > -580, $"{vat.OrpMillivolts} mV, before {before} mV");
    }

    [Fact]
    public void Reducing_agent_used_up_takes_the_pH_down()
    {
        var vat = new VatModel(new SimulationScenario { StartC = 44, ThermostatC = 44 }, Gallons40);
        var before = vat.Ph;
        vat.Advance(TimeSpan.FromHours(24));
        Assert.InRange(before - vat.Ph, 0.05, 1.5);
    }

    [Fact]
    public void A_thermostat_holds_the_vat()
    {
        var vat = new VatModel(new SimulationScenario { StartC = 40, ThermostatC = 44 }, Gallons40);
        vat.Advance(TimeSpan.FromHours(3));
        for (var i = 0; i < 100; i++)
        {
            vat.Advance(TimeSpan.FromMinutes(5));
            Assert.InRange(vat.TemperatureC, 43.3, 44.7);
        }
    }

    [Fact]
    public void The_noise_has_mean_zero_deviation_one_and_repeats_with_its_seed()
    {
        var vat = new VatModel(new SimulationScenario { Seed = 5 }, 100);
        var noise = Enumerable.Range(0, 20_000).Select(_ => vat.Noise()).ToArray();
        Assert.InRange(noise.Average(), -0.03, 0.03);
        Assert.InRange(Math.Sqrt(noise.Select(n => n * n).Average()), 0.97, 1.03);
        var again = new VatModel(new SimulationScenario { Seed = 5 }, 100);
        Assert.Equal(noise[0], again.Noise());
    }

    private static double HoursUntil(VatModel vat, Func<bool> reached)
    {
        var hours = 0.0;
        while (!reached() && hours < 48)
        {
            vat.Advance(TimeSpan.FromMinutes(1));
            hours += 1 / 60.0;
        }

        return hours;
    }
}
