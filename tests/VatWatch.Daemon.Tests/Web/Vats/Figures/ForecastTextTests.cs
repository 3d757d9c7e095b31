using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;

namespace VatWatch.Daemon.Tests.Web.Vats.Figures;

public sealed class ForecastTextTests
{
    private static readonly Stamp Then = new(new(2026, 3, 4, 23, 30, 0, TimeSpan.Zero), TimeSpan.FromHours(5), true);

    [Theory]
    [InlineData(30, 90, 0, "in 30 min to 1 h 30 min (Thu 5 Mar 00:00 to Thu 5 Mar 01:00)")]
    [InlineData(10, 20, 5, "in 5 min to 15 min (23:40 to 23:50)")]
    [InlineData(10, 20, 15, "in 0 to 5 min (23:45 to 23:50)")]
    [InlineData(10, 20, 25, "any moment now")]
    [InlineData(10, null, 0, "in 10 min at the earliest (23:40), or never")]
    [InlineData(10, null, 12, "any moment now, or never")]
    public void A_forecast_counts_from_now_and_tells_the_wall_clock(int early, int? late, int passed, string expected)
    {
        var forecast = new Forecast(TimeSpan.FromMinutes(early), TimeSpan.FromMinutes(early), late is { } minutes ? TimeSpan.FromMinutes(minutes) : null);
        var clock = new LocalClock(TimeZoneInfo.Utc, Then.Plus(TimeSpan.FromMinutes(passed)));

        Assert.Equal(expected, ForecastText.Range(forecast, Then, clock));
    }
}
