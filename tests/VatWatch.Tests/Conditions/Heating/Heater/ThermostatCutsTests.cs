using VatWatch.Conditions.Heating.Heater;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Heater;

public sealed class ThermostatCutsTests
{
    [Fact]
    public void Two_cut_offs_in_one_night_with_heating_between_make_a_thermostat()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        Assert.Null(cuts.ExpectedC);
        cuts.WentOn(TimeSpan.FromHours(2), 43, 0.15);
        Assert.Equal(44.4, cuts.ExpectedC);
        Assert.Null(cuts.OffC);
        cuts.WentOff(TimeSpan.FromHours(3), 44.6);
        Assert.Equal(44.6, cuts.OffC);
    }

    [Fact]
    public void A_lower_cut_off_after_the_first_may_have_been_the_mains_and_is_not_the_one_to_expect()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 43.4);
        cuts.WentOn(TimeSpan.FromHours(2), 41, 0.15);
        cuts.WentOff(TimeSpan.FromHours(2.5), 41.5);
        cuts.WentOn(TimeSpan.FromHours(2.8), 40.5, 0.15);
        Assert.Equal(43.4, cuts.ExpectedC);
    }

    [Theory]
    [InlineData(4, 44.6)]
    [InlineData(22, 42.8)]
    public void Cooler_cut_offs_lower_a_thermostat_only_when_a_night_has_passed_without_its_own(double hour, double offC)
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        cuts.WentOn(TimeSpan.FromHours(2), 43, 0.15);
        cuts.WentOff(TimeSpan.FromHours(3), 44.6);
        cuts.WentOn(TimeSpan.FromHours(hour), 42.2, 0.15);
        cuts.WentOff(TimeSpan.FromHours(hour + 0.2), 42.8);
        cuts.WentOn(TimeSpan.FromHours(hour + 1), 42.2, 0.15);
        cuts.WentOff(TimeSpan.FromHours(hour + 1.2), 42.8);
        Assert.Equal(offC, cuts.OffC);
    }

    [Fact]
    public void A_thermostat_whose_peaks_lie_apart_is_given_more_room()
    {
        Assert.Equal(44.6 + 0.6, Known(44.6, 44.6).StuckAboveC(0, 60, null)!.Value, 1e-9);
        Assert.Equal(44.6 + 0.6 + 0.4, Known(43.8, 44.6).StuckAboveC(0, 60, null)!.Value, 1e-9);

        static ThermostatCuts Known(double firstC, double secondC)
        {
            var cuts = new ThermostatCuts(38);
            cuts.WentOff(TimeSpan.FromHours(1), firstC);
            cuts.WentOn(TimeSpan.FromHours(2), 43, 0.15);
            cuts.WentOff(TimeSpan.FromHours(3), secondC);
            return cuts;
        }
    }

    [Fact]
    public void Cut_offs_of_two_nights_and_those_of_a_hand_make_none()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        cuts.WentOn(TimeSpan.FromHours(23), 25, 0.15);
        Assert.Null(cuts.ExpectedC);
        cuts.WentOff(TimeSpan.FromHours(25), 44.5);
        Assert.Null(cuts.OffC);

        cuts.Switched();
        cuts.WentOn(TimeSpan.FromHours(26), 43, 0.15);
        cuts.WentOff(TimeSpan.FromHours(27), 44.5);
        Assert.Null(cuts.OffC);
    }

    [Fact]
    public void What_a_controller_holds_is_known_up_to_where_it_overshot()
    {
        var cuts = new ThermostatCuts(38);
        Follow(cuts, 600, hour => hour < 2 ? 23 + 11.5 * hour : 45 + Math.Exp(2 - hour), 0.05, 0.7);
        Assert.Equal(46.0, cuts.OffC!.Value, 0.2);
        Assert.True(cuts.MayAct(45));
        Assert.False(cuts.MayAct(43));
    }

    [Theory]
    [InlineData(18, 46)]
    [InlineData(30, 44)]
    public void A_controller_that_is_turned_down_is_followed_when_a_night_has_passed(int hours, double offC)
    {
        var cuts = new ThermostatCuts(38);
        Follow(cuts, 60 * hours, hour => hour < 2 ? 23 + 11.5 * hour : hour < 8 ? 46 : Math.Max(42, 54 - hour), 0.05, 0.7);
        Assert.Equal(offC, cuts.OffC!.Value, 0.5);
    }

    [Theory]
    [InlineData(6, 46, 0.9)]
    [InlineData(3, 46, 3.0)]
    public void What_levels_off_by_itself_is_not_held(double hours, double endC, double lossKPerHour)
    {
        foreach (var grainK in new[] { 0.05, 0.5, 1 })
        {
            var cuts = new ThermostatCuts(38);
            Follow(cuts, 60 * 20, hour => grainK * Math.Round((endC - 26 * Math.Exp(-hour / hours)) / grainK), grainK, lossKPerHour);
            Assert.Null(cuts.OffC);
        }
    }

    [Fact]
    public void A_heater_that_dies_or_is_unplugged_under_a_good_lid_holds_nothing()
    {
        var cuts = new ThermostatCuts(38);
        Follow(cuts, 600, hour => hour < 2 ? 22 + 11 * hour : 44 - 0.2 * (hour - 2), 0.05, 0.35);
        Assert.Null(cuts.OffC);
    }

    private static void Follow(ThermostatCuts cuts, int minutes, Func<double, double> liquorC, double grainK, double lossKPerHour)
    {
        for (var minute = 0; minute < minutes; minute++)
        {
            cuts.Follow(new LiquorMean(TimeSpan.FromMinutes(minute), liquorC(minute / 60.0), null, 6), grainK, lossKPerHour);
        }
    }

    [Fact]
    public void A_pause_far_below_the_band_is_no_cut_off()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 30);
        cuts.WentOn(TimeSpan.FromHours(2), 29, 0.15);
        cuts.WentOff(TimeSpan.FromHours(3), 30);
        Assert.Null(cuts.ExpectedC);
    }

    [Fact]
    public void A_heater_that_only_seemed_to_pause_leaves_no_dip_and_is_no_thermostat()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 39.3);
        cuts.WentOn(TimeSpan.FromHours(1.2), 39.25, 0.15);
        Assert.Null(cuts.ExpectedC);
        cuts.WentOff(TimeSpan.FromHours(2), 40.4);
        Assert.Null(cuts.OffC);
    }

    [Fact]
    public void Heating_again_from_far_below_the_band_is_an_evening_and_not_a_cycle()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        cuts.WentOn(TimeSpan.FromHours(12), 30, 0.15);
        Assert.Null(cuts.ExpectedC);
        Assert.Null(cuts.OnC);
    }

    [Theory]
    [InlineData(50, 45.1)]
    [InlineData(45.4, 44.8)]
    [InlineData(44.5, 44.6)]
    public void What_lies_above_a_thermostat_is_told_sooner_where_the_limit_is_near(double limitC, double stuckAboveC)
    {
        var cuts = new ThermostatCuts(38);
        cuts.Restore(44.4);
        Assert.Equal(stuckAboveC, cuts.StuckAboveC(0.1, limitC, null)!.Value, 1e-9);
    }

    [Fact]
    public void One_cut_says_where_the_next_may_come_only_within_the_spread_of_a_thermostat()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        cuts.WentOn(TimeSpan.FromHours(2), 43, 0.15);
        Assert.Equal(45.7, cuts.StuckAboveC(0.1, 50, null)!.Value, 1e-9);
        cuts.WentOff(TimeSpan.FromHours(3), 44.4);
        Assert.Equal(45.1, cuts.StuckAboveC(0.1, 50, null)!.Value, 1e-9);
    }

    [Theory]
    [InlineData(45.4, 4.5, 44.8)]
    [InlineData(45.4, 6, 44.6)]
    [InlineData(45.4, 12, 44.5)]
    [InlineData(50, 12, 45.1)]
    public void Where_a_steady_rise_leaves_little_time_to_the_limit_it_is_told_at_the_peak_itself(double limitC, double kPerHour, double stuckAboveC)
    {
        var cuts = new ThermostatCuts(38);
        cuts.Restore(44.4);
        Assert.Equal(stuckAboveC, cuts.StuckAboveC(0.1, limitC, kPerHour)!.Value, 1e-9);
    }
}
