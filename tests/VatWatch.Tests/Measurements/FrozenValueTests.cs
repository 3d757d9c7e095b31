using VatWatch.Measurements;

namespace VatWatch.Tests.Measurements;

public sealed class FrozenValueTests
{
    private readonly FrozenValue _value = new(0.025);
    private TimeSpan _now;

    [Fact]
    public void A_value_that_moved_and_then_stays_exactly_the_same_for_a_quarter_of_an_hour_is_frozen()
    {
        Move(60);
        Hold(44.12, TimeSpan.FromMinutes(14));
        Assert.False(_value.IsFrozen);
        Hold(44.12, TimeSpan.FromMinutes(2));
        Assert.True(_value.IsFrozen);
        Assert.Equal(44.12, _value.Value);
        Move(1);
        Assert.False(_value.IsFrozen);
    }

    [Fact]
    public void A_coarse_sensor_that_often_repeats_itself_is_not()
    {
        for (var i = 0; i < 40; i++)
        {
            Hold(i % 2 == 0 ? 44 : 44.5, TimeSpan.FromMinutes(8));
        }

        Hold(45, TimeSpan.FromMinutes(40));
        Assert.False(_value.IsFrozen);
    }

    [Fact]
    public void A_display_of_sixteenths_in_a_steady_vat_is_not()
    {
        for (var i = 0; i < 400; i++)
        {
            _value.Add(_now += TimeSpan.FromSeconds(5), 44 + 0.0625 * (i % 3));
        }

        Hold(44.0625, TimeSpan.FromMinutes(60));
        Assert.False(_value.IsFrozen);
        Hold(44.0625, TimeSpan.FromMinutes(40));
        Assert.True(_value.IsFrozen);
    }

    [Fact]
    public void A_value_that_never_moved_is_not_yet_known_to_be_frozen()
    {
        Hold(20, TimeSpan.FromHours(5));
        Assert.False(_value.IsFrozen);
    }

    private void Move(int times)
    {
        for (var i = 0; i < times; i++)
        {
            _value.Add(_now += TimeSpan.FromSeconds(5), 40 + 0.01 * i + 0.001);
        }
    }

    private void Hold(double value, TimeSpan time)
    {
        for (var end = _now + time; _now < end;)
        {
            _value.Add(_now += TimeSpan.FromSeconds(5), value);
        }
    }
}
