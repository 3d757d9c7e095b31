using VatWatch.Conditions.Heating.Heater;

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
