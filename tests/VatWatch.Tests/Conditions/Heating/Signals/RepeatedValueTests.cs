using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Signals;

public sealed class RepeatedValueTests
{
    private const double KPerHour = 11;
    private readonly RepeatedValue _value = new();
    private double _minute;

    [Fact]
    public void A_fine_thermometer_that_stops_while_the_liquor_rises_is_frozen()
    {
        Rest(20, 22.5, step: 0.0625);
        Rise(22.5, 30, step: 0.0625);
        Rest(20, 30, step: 0.0625);
        Assert.NotNull(_value.FrozenSince);
    }

    [Theory]
    [InlineData(false, 35, false)]
    [InlineData(false, 90, false)]
    [InlineData(true, 35, false)]
    [InlineData(true, 60, true)]
    public void One_of_half_a_kelvin_is_so_only_short_of_the_band_where_no_thermostat_cuts_off(bool isShort, double minutes, bool isFrozen)
    {
        Rest(25, 22.5, step: 0.5);
        Rise(22.5, 36.5, step: 0.5);
        Rest(minutes, 36.5, step: 0.5, isShort);
        Assert.Equal(isFrozen, _value.FrozenSince is not null);
    }

    [Theory]
    [InlineData(0.4, false)]
    [InlineData(-3, false)]
    [InlineData(3, true)]
    public void In_its_band_a_liquor_that_hardly_rises_or_falls_may_come_to_rest(double kPerHour, bool isFrozen)
    {
        for (var i = 0; i < 6 * 120; i++)
        {
            Add(i == 0 ? 43.4 : 43.5, 0.1, kPerHour, isShort: false);
        }

        Assert.Equal(isFrozen, _value.FrozenSince is not null);
    }

    [Fact]
    public void Past_where_heating_should_have_ended_even_a_coarse_one_that_had_stood_still_for_hours_is_doubted_soon_and_then_frozen()
    {
        Rest(25, 22.5, step: 0.5);
        for (var i = 0; i < 6 * 170; i++)
        {
            Add(26, 0.5, 2, isShort: false);
        }

        Rise(26, 49, step: 0.5);
        Rest(10, 49, step: 0.5, isPast: true);
        Assert.Equal((null, true), (_value.FrozenSince, _value.IsDoubtful));
        Rest(40, 49, step: 0.5, isPast: true);
        Assert.NotNull(_value.FrozenSince);
        Add(48.5, 0.5, -1, isShort: false);
        Assert.Equal((null, false), (_value.FrozenSince, _value.IsDoubtful));
    }

    [Fact]
    public void It_is_over_with_the_next_value()
    {
        Rise(22.5, 36.5, step: 0.5);
        Rest(60, 36.5, step: 0.5, isShort: true);
        Add(37, 0.5, KPerHour, isShort: true);
        Assert.Null(_value.FrozenSince);
    }

    private void Rest(double minutes, double liquorC, double step, bool isShort = false, bool isPast = false)
    {
        for (var until = _minute + minutes; _minute < until;)
        {
            Add(liquorC, step, 0, isShort, isPast);
        }
    }

    private void Rise(double fromC, double toC, double step)
    {
        for (var began = _minute; fromC + (_minute - began) / 60 * KPerHour < toC;)
        {
            Add(Math.Floor((fromC + (_minute - began) / 60 * KPerHour) / step) * step, step, KPerHour, isShort: true);
        }

        Add(toC, step, KPerHour, isShort: true);
    }

    private void Add(double liquorC, double step, double kPerHour, bool isShort, bool isPast = false) =>
        _value.Add(TimeSpan.FromMinutes(_minute += 1.0 / 6), liquorC, step, kPerHour, isShort, isPast, roomC: 18);
}
