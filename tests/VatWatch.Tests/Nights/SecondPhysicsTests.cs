using VatWatch.Nights.Physics;

namespace VatWatch.Tests.Nights;

/// <summary>The physics of the made-up nights, against figures from outside the project.</summary>
public sealed class SecondPhysicsTests
{
    private static VatBody Body(double altitude = 0) => VatBody.Draw(new Chance(3)) with { Altitude = altitude };

    [Theory]
    [InlineData(26.85, 3536.6)] // 300 K: IAPWS-IF97, table 35
    [InlineData(45, 9594)] // IAPWS-IF97
    [InlineData(100, 101_418)] // IAPWS-IF97
    public void Vapour_pressure_agrees_with_the_steam_tables(double celsius, double pascal) =>
        Assert.Equal(1, Water.VapourPressure(celsius) / pascal, 0.0025);

    [Theory]
    [InlineData(0, 100)]
    [InlineData(1000, 96.7)] // standard atmosphere 89.87 kPa, IAPWS-IF97
    [InlineData(2000, 93.4)] // 79.50 kPa
    public void Water_boils_where_the_standard_atmosphere_lets_it(double altitude, double celsius) =>
        Assert.Equal(celsius, Water.BoilingPoint(Water.Pressure(altitude)), 0.15);

    [Fact]
    public void Evaporation_of_a_warm_still_surface_is_that_of_the_published_correlations()
    {
        // 46 °C under a room of 20 °C and half saturated: 0.86 (Smith) to 1.24 kg/(m² h) (Shah).
        var transfer = Water.StillAirTransfer(46, 20, 0.5, 101_325);
        var hourly = 3600 * Water.Evaporation(transfer, 46, 20, 0.5, 101_325);
        Assert.InRange(hourly, 0.86, 1.4);
    }

    [Fact]
    public void No_joule_is_lost_in_a_night_of_heating_cooling_pouring_and_stirring()
    {
        foreach (var seed in Enumerable.Range(1, 20))
        {
            var chance = new Chance(seed);
            var liquor = new LayeredLiquor(VatBody.Draw(chance) with { Litres = chance.Spread(100, 400) }, 30);
            var before = liquor.Content;
            for (var step = 0; step < 10_000; step++)
            {
                liquor.LidOn = step % 2000 < 1000;
                liquor.Step(5, step is > 1000 and < 8000 ? 3000 : 0, 15, 0.5);
                if (step % 3000 == 1500)
                    liquor.Pour(2, 10);
                if (step % 2500 == 700)
                    liquor.Stir();
                if (step % 2500 == 900)
                    liquor.Draw(20_000);
            }

            Assert.Equal(1, (before + liquor.Balance) / liquor.Content, 1e-9);
        }
    }

    [Fact]
    public void A_heater_left_on_ends_at_the_boiling_point_of_the_place()
    {
        var body = Body(1500) with { Litres = 40 };
        var liquor = new LayeredLiquor(body, 60);
        var mass = liquor.Mass;
        for (var step = 0; step < 1440; step++)
            liquor.Step(5, 3000, 18, 0.5);
        Assert.True(liquor.Boils);
        Assert.Equal(95.0, liquor.At(0.9), 0.3);
        Assert.InRange(liquor.Mass, mass - 9, mass - 2);
    }

    [Fact]
    public void A_vat_that_gets_what_it_loses_stands_still()
    {
        var body = Body();
        var liquor = new LayeredLiquor(body, 45);
        for (var step = 0; step < 20_000; step++)
            liquor.Step(5, body.Loss(45, 15, lidOn: true), 15, 0.5);
        Assert.Equal(45, liquor.Mean, 1.5);
    }

    [Fact]
    public void Heat_from_an_element_stays_above_it_until_the_liquor_is_stirred()
    {
        var liquor = new LayeredLiquor(Body() with { ElementHeight = 0.3, PlumeExcess = 2, Eddy = 3e-7 }, 20);
        for (var step = 0; step < 1200; step++)
            liquor.Step(5, 1500, 15, 0.5);
        Assert.True(liquor.At(0.9) > liquor.At(0.05) + 1);
        liquor.Stir();
        Assert.Equal(liquor.At(0.9), liquor.At(0.05), 6);
    }

    [Fact]
    public void A_thermostat_holds_between_its_points_and_a_stuck_one_does_not()
    {
        var (sound, stuck) = (Held(false), Held(true));
        Assert.InRange(sound, 41, 47);
        Assert.True(stuck > 60);

        static double Held(bool isStuck)
        {
            var chance = new Chance(5);
            var body = Body() with { Litres = 60, LidLoss = 2, SideLoss = 2 };
            var liquor = new LayeredLiquor(body, 25);
            var heater = new Heater(1500, 60, chance) { SwitchedOn = true, Thermostat = Thermostat.Draw(chance, 45, body.ElementHeight) };
            heater.Thermostat.Stuck = isStuck;
            for (var step = 0; step < 6 * 720; step++)
            {
                heater.Step(5, liquor);
                liquor.Step(5, heater.Given, 15, 0.5);
            }

            return liquor.Mean;
        }
    }

    [Theory]
    [InlineData(0.075, 0.05, 25, 10.012)] // standard buffer of 0.025 m bicarbonate and 0.025 m carbonate, certified
    [InlineData(0.075, 0.05, 40, 9.889)]
    [InlineData(0.075, 0.05, 10, 10.179)]
    [InlineData(0.04, 0.02, 45, 10.73)] // 0.02 m soda ash by another solver with other constants
    [InlineData(0.01, 0.01, 25, 8.25)] // bicarbonate alone, likewise
    public void A_bath_of_soda_has_the_ph_that_was_measured_or_worked_out_elsewhere(double alkalinity, double carbon, double celsius, double ph) =>
        Assert.Equal(ph, new CarbonateBath(carbon) { Alkalinity = alkalinity }.Ph(celsius), 0.025);

    [Fact]
    public void A_bath_made_for_a_ph_has_it() => Assert.Equal(9.9, CarbonateBath.AtPh(9.9, 45, 0.02).Ph(45), 3);

    [Fact]
    public void Recoveries_get_slower_and_end_higher_as_the_reducing_agent_goes()
    {
        var bath = new ReducingBath(new Chance(1), CarbonateBath.AtPh(10, 45, 0.02));
        var first = Recovery();
        for (var dip = 0; dip < 4; dip++)
            Recovery();
        var last = Recovery();
        Assert.True(last.Minutes > first.Minutes + 2);
        Assert.True(last.End > first.End + 20);

        (double Minutes, double End) Recovery()
        {
            bath.Dip(0.15);
            var seconds = 0;
            for (double start = 0; seconds < 7200; seconds += 10)
            {
                bath.Step(10, 45);
                start = seconds == 0 ? bath.Millivolts : start;
                if (bath.Millivolts < start - 30)
                    break;
            }

            for (var rest = seconds; rest < 3600; rest += 10)
                bath.Step(10, 45);
            return (seconds / 60.0, bath.Millivolts);
        }
    }

    [Fact]
    public void A_thermometer_reads_in_its_steps_lags_and_can_freeze()
    {
        var thermometer = new Thermometer(new Chance(2)) { Height = 0.5, Lag = 60, Noise = 0.01, Increment = 0.5, Period = 10 };
        var (warm, hot) = (new LayeredLiquor(Body(), 30), new LayeredLiquor(Body(), 60));
        thermometer.Step(5, warm, 15);
        var first = thermometer.Read();
        thermometer.Step(5, hot, 15);
        var soon = thermometer.Read();
        Assert.Equal(0, first % 0.5);
        Assert.InRange(first, 29, 31);
        Assert.InRange(soon, 30, 36);
        thermometer.Frozen = true;
        thermometer.Step(3600, hot, 15);
        Assert.Equal(soon, thermometer.Read());
        (thermometer.Frozen, thermometer.InAir) = (false, true);
        thermometer.Step(36_000, hot, 15);
        Assert.InRange(thermometer.Read(), 14, 20);
    }
}
