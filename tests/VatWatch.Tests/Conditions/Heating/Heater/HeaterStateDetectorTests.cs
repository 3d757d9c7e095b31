using VatWatch.Conditions.Heating.Heater;
using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Heating.Heater;

public sealed class HeaterStateDetectorTests
{
    private readonly HeaterStateDetector _sense = new();
    private readonly HeatEstimate _estimate = new HeatBalance(HeatPrior.Of(SampleVats.MadderLane())).Estimate(20);

    [Theory]
    [InlineData(8.0, true)]
    [InlineData(-0.5, false)]
    public void The_slope_tells_where_no_probe_does(double kPerHour, bool on)
    {
        _sense.Evaluate(Minutes(10), Line(kPerHour), _estimate);
        Assert.Equal(on, _sense.IsOn);
        Assert.False(_sense.IsTold);
    }

    [Fact]
    public void A_vat_that_was_open_and_has_been_covered_cools_more_slowly_but_is_not_heated()
    {
        var open = _estimate with { HeatingKPerHour = 2.7, HeatingVariance = 0.01, LossPerHour = 0.09, RoomKPerHour = 0, ReferenceC = 20 };
        _sense.Evaluate(Minutes(10), Line(-1.4), open);
        _sense.Evaluate(Minutes(20), Line(-0.2), open);
        Assert.False(_sense.IsOn);
        _sense.Evaluate(Minutes(30), Line(1), open);
        Assert.True(_sense.IsOn);
    }

    [Fact]
    public void A_slope_that_is_not_sure_of_its_side_leaves_it_unknown()
    {
        _sense.Evaluate(Minutes(10), Line(_estimate.HeaterThresholdKPerHour(35) + 0.5, sigma: 2), _estimate);
        Assert.Null(_sense.IsOn);
    }

    [Fact]
    public void A_probe_is_believed_at_once()
    {
        _sense.Evaluate(Minutes(10), Line(8), _estimate);
        _sense.Tell(Minutes(11), false);
        Assert.False(_sense.IsOn);
        Assert.Equal(Minutes(11), _sense.Since);
    }

    [Fact]
    public void A_probe_that_says_off_is_overruled_when_the_liquor_goes_on_rising_for_ten_minutes()
    {
        _sense.Tell(Minutes(0), true);
        _sense.Tell(Minutes(30), false);
        for (var minute = 31; minute <= 60 && _sense.IsOn == false; minute++)
        {
            _sense.Evaluate(Minutes(minute), Line(8), _estimate);
            Assert.True(minute < 60);
        }

        Assert.True(_sense.IsOn);
        Assert.InRange(_sense.RisesThoughOffSince!.Value, Minutes(30), Minutes(37));
    }

    [Fact]
    public void A_rise_from_before_the_switch_does_not_overrule_the_probe()
    {
        _sense.Tell(Minutes(0), true);
        _sense.Evaluate(Minutes(29), Line(8), _estimate);
        _sense.Tell(Minutes(30), false);
        _sense.Evaluate(Minutes(45), null, _estimate);
        Assert.False(_sense.IsOn);
        Assert.Null(_sense.RisesThoughOffSince);
    }

    private static TimeSpan Minutes(int minutes) => TimeSpan.FromMinutes(minutes);

    private static RateLine Line(double kPerHour, double sigma = 0.1) => new(kPerHour, sigma, TimeSpan.Zero, TimeSpan.FromMinutes(5), 35);
}
