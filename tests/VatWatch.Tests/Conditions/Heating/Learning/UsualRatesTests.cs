using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Heating.Learning;

namespace VatWatch.Tests.Conditions.Heating.Learning;

public sealed class UsualRatesTests
{
    private readonly UsualRates _rates = new();

    [Fact]
    public void Tonight_is_usual_only_in_the_next_warm_up_and_only_at_its_warmth()
    {
        Minutes(5, heaterOn: true, 41.2, 4);
        Assert.Null(_rates.At(heaterOn: true, 41.2));
        _rates.BeginWarmUp();
        Assert.Equal(4, _rates.At(heaterOn: true, 41.9));
        Assert.Null(_rates.At(heaterOn: true, 43));
        Assert.Null(_rates.At(heaterOn: false, 41.2));
    }

    [Fact]
    public void Two_minutes_at_a_warmth_are_no_rate()
    {
        Minutes(2, heaterOn: true, 41.2, 4);
        _rates.BeginWarmUp();
        Assert.Null(_rates.At(heaterOn: true, 41.2));
    }

    [Fact]
    public void Nights_count_alike_at_first_and_old_ones_fade()
    {
        foreach (var kPerHour in new[] { 4.0, 2, 3 })
        {
            Night(kPerHour);
        }

        Assert.Equal(3, _rates.At(heaterOn: true, 41.2)!.Value, 1e-9);
        for (var night = 0; night < 12; night++)
        {
            Night(6);
        }

        Assert.Equal(6, _rates.At(heaterOn: true, 41.2)!.Value, 0.15);
    }

    [Theory]
    [InlineData(true, -1.2)]
    [InlineData(false, null)]
    public void What_cools_is_usual_only_between_a_thermostats_cut_and_its_coming_on(bool afterCut, double? usual)
    {
        Minutes(5, heaterOn: false, 42.5, -1.2);
        _rates.CameOn(afterCut);
        _rates.BeginWarmUp();
        Assert.Equal(usual, _rates.At(heaterOn: false, 42.5));
    }

    [Fact]
    public void Where_no_earlier_night_is_known_a_thermostats_earlier_pauses_of_tonight_are_usual()
    {
        Minutes(5, heaterOn: false, 42.5, -1.2);
        Assert.Null(_rates.At(heaterOn: false, 42.5));
        _rates.CameOn(afterCut: true);
        Assert.Equal(-1.2, _rates.At(heaterOn: false, 42.5));
        _rates.BeginWarmUp();
        Minutes(5, heaterOn: false, 42.5, -3);
        _rates.CameOn(afterCut: true);
        Assert.Equal(-1.2, _rates.At(heaterOn: false, 42.5));
    }

    [Fact]
    public void Of_the_first_hour_the_least_is_kept_for_each_part_of_it()
    {
        foreach (var gain in new[] { 5.0, 3, 4 })
        {
            for (var minute = 20; minute < 30; minute++)
            {
                _rates.AddFirst(TimeSpan.FromMinutes(minute), gain);
            }

            _rates.BeginWarmUp();
        }

        Assert.Equal(3, _rates.First(TimeSpan.FromMinutes(25)));
        Assert.Equal(3, _rates.FirstNights(TimeSpan.FromMinutes(25)));
        Assert.Null(_rates.First(TimeSpan.FromMinutes(35)));
        Assert.Equal(0, _rates.FirstNights(TimeSpan.FromMinutes(35)));
    }

    [Fact]
    public void What_is_kept_counts_tonight_as_an_earlier_night_and_what_no_vat_shows_is_left_out()
    {
        Night(4);
        Minutes(5, heaterOn: true, 41.2, 2);
        var (warming, cooling, firstHour) = _rates.Kept();
        Assert.Equal(new KeptRate(41, 3, 2), Assert.Single(warming));
        Assert.Empty(cooling);
        var other = new UsualRates();
        other.Restore(new([.. warming, new(500, 3, 1), new(42, double.NaN, 1), new(43, 3, 0)], cooling, firstHour, [], null));
        Assert.Equal(3, other.At(heaterOn: true, 41.2));
        Assert.Null(other.At(heaterOn: true, 42.2));
        Assert.Null(other.At(heaterOn: true, 43.2));
        Assert.Equal(4, _rates.At(heaterOn: true, 41.2));
    }

    private void Night(double kPerHour)
    {
        Minutes(5, heaterOn: true, 41.2, kPerHour);
        _rates.BeginWarmUp();
    }

    private void Minutes(int minutes, bool heaterOn, double liquorC, double kPerHour)
    {
        for (var i = 0; i < minutes; i++)
        {
            _rates.Add(heaterOn, liquorC, kPerHour);
        }
    }
}
