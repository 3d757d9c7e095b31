using System.Text.Json;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions;

public sealed class ForecastsTests
{
    private readonly ScriptedVat _vat = new();

    [Fact]
    public void With_a_heater_of_known_rating_there_is_a_forecast_with_a_wide_band_from_the_first_minute()
    {
        _vat.HeaterOn = true;
        var first = _vat.Run(1).TimeToLimit;
        Assert.NotNull(first);
        var later = _vat.Run(60).TimeToLimit;
        Assert.NotNull(later);
        Assert.True(Width(first) > 1.5 * Width(later), $"{first} then {later}");
    }

    [Fact]
    public void With_an_unknown_heater_there_is_none_before_a_rise_is_seen()
    {
        var vat = new ScriptedVat(_vat.Vat with { HeaterWatts = null }) { HeaterOn = true };
        var before = vat.Run(1);
        Assert.Null(before.TimeToLimit);
        Assert.Contains("no rise is seen", before.NoTimeToLimit, StringComparison.Ordinal);
        Assert.NotNull(vat.Run(12).TimeToLimit);
    }

    [Fact]
    public void The_forecast_comes_true()
    {
        _vat.HeaterOn = true;
        var said = _vat.Run(60).TimeToLimit;
        Assert.NotNull(said);
        var from = _vat.Now;
        while (_vat.LiquorC < _vat.Vat.Temperature.LimitC)
        {
            _vat.Run(1);
        }

        Assert.InRange(_vat.Now - from, said.Early, said.Late!.Value);
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(0.5)]
    public void A_coarse_thermometer_foresees_the_limit_when_a_relay_welds_in_the_hold(double stepK)
    {
        var vat = new ScriptedVat(_vat.Vat with { Probes = [.. _vat.Vat.Probes.Where(probe => probe.Quantity != Quantity.Heater)] }) { HeaterOn = true, Scatter = 0, LiquorC = 44, PowerW = 104 };
        vat.ProbeShows = _ => Math.Round(vat.LiquorC / stepK) * stepK;
        vat.Run(300);
        vat.PowerW = 2600;
        VatCondition? said = null;
        while (vat.LiquorC < vat.Vat.Temperature.LimitC - 1.3)
        {
            said = vat.Run(1);
        }

        var from = vat.Now;
        while (vat.LiquorC < vat.Vat.Temperature.LimitC)
        {
            vat.Run(0.5);
        }

        Assert.NotNull(said?.TimeToLimit);
        Assert.InRange(vat.Now - from, said.TimeToLimit.Early, said.TimeToLimit.Late!.Value);
    }

    [Fact]
    public void A_vat_that_levels_off_below_the_limit_has_no_time_to_it_but_a_reason()
    {
        _vat.HeaterOn = true;
        _vat.LossWPerK = 60;
        var condition = _vat.Run(400);
        Assert.Null(condition.TimeToLimit);
        Assert.Matches("levels off|does not rise|too slowly", condition.NoTimeToLimit);
    }

    [Fact]
    public void With_the_heater_off_there_is_no_time_to_anything()
    {
        _vat.LiquorC = 30;
        var condition = _vat.Run(10);
        Assert.Equal("the heater is off", condition.NoTimeToLimit);
        Assert.Equal("the heater is off", condition.NoTimeToBand);
    }

    [Fact]
    public void What_a_night_taught_survives_being_written_down_and_narrows_the_next()
    {
        _vat.HeaterOn = true;
        _vat.Run(180);
        _vat.HeaterOn = false;
        _vat.Run(240);
        var kept = JsonSerializer.Deserialize<LearnedHeat>(JsonSerializer.Serialize(_vat.Assessor.LearnedHeat));
        Assert.NotNull(kept);
        var fresh = new ScriptedVat { HeaterOn = true };
        var taught = new ScriptedVat { HeaterOn = true };
        Assert.True(taught.Assessor.Restore(kept));
        var (wide, narrow) = (fresh.Run(2).TimeToLimit, taught.Run(2).TimeToLimit);
        Assert.True(Width(narrow!) < 0.5 * Width(wide!), $"{narrow} against {wide}");
        Assert.False(fresh.Assessor.Restore(kept with { PowerW = double.NaN }));
    }

    [Fact]
    public void Without_heater_and_room_probes_it_works_from_the_liquor_alone()
    {
        var alone = new ScriptedVat(SampleVats.MadderLane() with { HeaterWatts = null }) { HeaterOn = true };
        var condition = alone.Run(40);
        Assert.True(condition.Heat!.HeaterOn);
        Assert.Equal(1480, condition.Heat.HeaterPower.Watts, 200.0);
        Assert.NotNull(condition.TimeToLimit);
        alone.HeaterOn = false;
        Assert.False(alone.Run(20).Heat!.HeaterOn);
    }

    private static TimeSpan Width(Forecast forecast) => (forecast.Late ?? TimeSpan.FromHours(24)) - forecast.Early;
}
