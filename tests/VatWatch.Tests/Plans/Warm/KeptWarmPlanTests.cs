using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

public sealed class KeptWarmPlanTests
{
    private static readonly TimeZoneInfo Paris = TimeZoneInfo.FindSystemTimeZoneById("Europe/Paris");

    // Friday 14 March 2031, 21:00 by the wall in winter time, UTC+1.
    private static readonly DateTimeOffset Friday = new(2031, 3, 14, 20, 0, 0, TimeSpan.Zero);

    private static readonly KeptWarmPlan Workdays = new(new(9, 0), 45, [DayOfWeek.Monday, DayOfWeek.Friday], null, "Ada");

    [Fact]
    public void The_next_time_is_that_of_the_next_day_of_the_week() => Assert.Equal(At(17, 8), Workdays.Next(Friday, Paris));

    [Fact]
    public void A_time_that_has_just_gone_by_still_matters_for_an_hour()
    {
        Assert.Equal(At(17, 8), Workdays.Next(At(17, 8).AddMinutes(59), Paris));
        Assert.Equal(At(21, 8), Workdays.Next(At(17, 8).AddMinutes(61), Paris));
    }

    [Fact]
    public void Put_off_is_put_off_for_one_time()
    {
        var later = Workdays.PutOff(Friday, Paris);
        Assert.Equal(At(21, 8), later.Next(Friday, Paris));
        Assert.Equal(At(28, 8), later.PutOff(Friday, Paris).PutOff(Friday, Paris).Next(Friday, Paris));
    }

    [Fact]
    public void A_heater_is_on_for_the_wish_that_was_said_with_it_or_else_for_the_next()
    {
        Assert.True(Workdays.IsFor(At(17, 8), Friday, null, Paris));
        Assert.False(Workdays.IsFor(At(21, 8), Friday, null, Paris));
        Assert.True(Workdays.IsFor(At(21, 8), Friday, At(21, 8), Paris));
        Assert.False(Workdays.IsFor(At(17, 8), Friday, At(16, 8), Paris));
    }

    [Fact]
    public void Once_is_over_when_it_is_over()
    {
        var once = Workdays with { Days = [], Once = new DateOnly(2031, 3, 15) };
        Assert.Equal(At(15, 8), once.Next(Friday, Paris));
        Assert.Null(once.Next(At(15, 10), Paris));
        Assert.Null(once.PutOff(Friday, Paris).Next(Friday, Paris));
    }

    [Fact]
    public void Nine_by_the_wall_stays_nine_when_summer_time_begins() =>
        Assert.Equal(At(31, 7), (Workdays with { Days = [DayOfWeek.Monday] }).Next(At(29, 20), Paris)); // 30 March 2031 has 23 hours

    private static DateTimeOffset At(int day, int hour) => new(2031, 3, day, hour, 0, 0, TimeSpan.Zero);
}
