using VatWatch.Conditions;
using VatWatch.Conditions.Heating.Heater;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Heating.Heater;

public sealed class HeaterDrawTests
{
    private const double ColdC = 25;
    private readonly HeaterDraw _draw = new(SampleVats.MadderLane() with { HeaterWatts = 1500 });
    private TimeSpan _now;

    [Fact]
    public void Half_of_the_plate_is_told_on_the_first_night_after_minutes()
    {
        Minutes(4, 0.5);
        Assert.Null(Seen(ColdC));
        Minutes(2, 0.5);
        var said = Seen(ColdC);
        Assert.Equal(DiagnosisKind.WeakHeater, said?.Kind);
        Assert.Contains("draws 750 W, where its plate says 1500 W", said!.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_weak_stays_so_over_a_pause_and_near_the_band_until_it_draws_more()
    {
        Minutes(10, 0.5);
        Assert.NotNull(Seen(ColdC));
        Off();
        Assert.NotNull(Seen(ColdC));
        Minutes(10, 0.5);
        Assert.NotNull(Seen(SampleVats.MadderLane().Temperature.LowC));
        Minutes(10, 1);
        Assert.Null(Seen(SampleVats.MadderLane().Temperature.LowC));
    }

    [Fact]
    public void A_plate_for_more_volts_than_the_mains_have_is_no_fault()
    {
        Minutes(20, 0.75);
        Assert.Null(Seen(ColdC));
    }

    [Theory]
    [InlineData(0.8, false)]
    [InlineData(0.67, true)]
    public void Later_nights_are_held_against_what_it_drew(double share, bool isTold)
    {
        Minutes(30, 1);
        Off();
        _draw.BeginWarmUp();
        Minutes(10, share);
        Assert.Equal(isTold, Seen(ColdC)?.Sentence.ToString().Contains("used to draw 1500 W", StringComparison.Ordinal) == true);
    }

    [Fact]
    public void A_part_that_goes_while_it_heats_is_told_within_minutes()
    {
        _draw.Restore(1);
        Minutes(60, 1);
        Minutes(4, 0.5);
        Assert.NotNull(Seen(45));
    }

    [Fact]
    public void A_controller_that_sets_the_power_by_degrees_or_in_pulses_is_no_fault()
    {
        Minutes(30, 1);
        Minutes(20, 0.3);
        Assert.Null(Seen(SampleVats.MadderLane().Temperature.LowC));
        Off();
        _draw.BeginWarmUp();
        foreach (var share in new[] { 0.4, 0.1 })
        {
            Minutes(20, share);
            Assert.Null(Seen(SampleVats.MadderLane().Temperature.LowC));
        }

        Off();
        for (var pulse = 0; pulse < 20; pulse++)
        {
            Minutes(1, 0.2);
            Off();
        }

        Assert.Null(Seen(ColdC));
    }

    [Fact]
    public void A_weaker_element_that_stays_is_believed_within_nights()
    {
        _draw.Restore(1);
        var told = 0;
        for (var night = 0; night < 4; night++)
        {
            Minutes(20, 0.6);
            told += Seen(ColdC) is null ? 0 : 1;
            Off();
            _draw.BeginWarmUp();
        }

        Assert.InRange(told, 1, 2);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-1.0)]
    public void What_no_heater_draws_is_not_taken_up(double kept)
    {
        _draw.Restore(kept);
        Assert.Null(_draw.Usual);
    }

    private Diagnosis? Seen(double liquorC) => _draw.Evaluate(new Stamp(DateTimeOffset.UnixEpoch + _now, _now, true), liquorC);

    private void Off() => _draw.Add(_now += TimeSpan.FromMinutes(1), 0);

    private void Minutes(int minutes, double share)
    {
        for (var i = 0; i < 6 * minutes; i++)
        {
            _draw.Add(_now += TimeSpan.FromSeconds(10), share);
        }
    }
}
