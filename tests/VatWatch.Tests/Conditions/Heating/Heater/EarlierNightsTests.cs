using VatWatch.Conditions.Heating.Heater;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Heating.Heater;

public sealed class EarlierNightsTests
{
    private readonly EarlierNights _nights = new(SampleVats.MadderLane());

    [Fact]
    public void A_night_begins_where_the_heater_was_long_off_and_a_thermostats_pauses_begin_none()
    {
        Assert.True(_nights.Heats(TimeSpan.FromHours(1), null, 25));
        Assert.False(_nights.Heats(TimeSpan.FromHours(2), null, 35));
        Assert.False(_nights.Heats(TimeSpan.FromHours(4.5), null, 44));
        Assert.True(_nights.Heats(TimeSpan.FromHours(24), null, 25));
    }

    [Fact]
    public void What_is_kept_is_put_together_anew_when_the_heater_turns_and_is_taken_up_by_the_next_run()
    {
        var before = _nights.Kept;
        for (var minute = 0; minute < 5; minute++)
        {
            _nights.Rates.Add(heaterOn: true, 41.5, 4);
        }

        Assert.Same(before, _nights.Kept);
        _nights.HeaterTurned();
        var next = new EarlierNights(SampleVats.MadderLane());
        next.Restore(_nights.Kept);
        Assert.Equal(4, next.Rates.At(heaterOn: true, 41.5));
        Assert.Null(_nights.Rates.At(heaterOn: true, 41.5));
    }
}
