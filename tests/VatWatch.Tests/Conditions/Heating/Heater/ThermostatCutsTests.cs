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
        cuts.WentOn(TimeSpan.FromHours(2), 43);
        Assert.Equal(44.4, cuts.ExpectedC);
        Assert.Null(cuts.OffC);
        cuts.WentOff(TimeSpan.FromHours(3), 44.6);
        Assert.Equal(44.6, cuts.OffC);
    }

    [Fact]
    public void Cut_offs_of_two_nights_and_those_of_a_hand_make_none()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        cuts.WentOn(TimeSpan.FromHours(23), 25);
        Assert.Null(cuts.ExpectedC);
        cuts.WentOff(TimeSpan.FromHours(25), 44.5);
        Assert.Null(cuts.OffC);

        cuts.Switched();
        cuts.WentOn(TimeSpan.FromHours(26), 43);
        cuts.WentOff(TimeSpan.FromHours(27), 44.5);
        Assert.Null(cuts.OffC);
    }

    [Fact]
    public void A_pause_far_below_the_band_is_no_cut_off()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 30);
        cuts.WentOn(TimeSpan.FromHours(2), 29);
        cuts.WentOff(TimeSpan.FromHours(3), 30);
        Assert.Null(cuts.ExpectedC);
    }
}
