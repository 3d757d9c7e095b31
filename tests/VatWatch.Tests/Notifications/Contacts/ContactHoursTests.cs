using System.Globalization;
using VatWatch.Notifications.Contacts;

namespace VatWatch.Tests.Notifications.Contacts;

/// <summary>Times of the wall in Chicago: UTC-6, from 8 March 2026 02:00 on UTC-5, from 1 November 02:00 on UTC-6 again (IANA tz database).</summary>
public sealed class ContactHoursTests
{
    [Theory]
    [InlineData("07:00", "22:00", "2026-03-02T15:00Z", "2026-03-02T15:00Z")]
    [InlineData("07:00", "22:00", "2026-03-02T13:00Z", "2026-03-02T13:00Z")]
    [InlineData("07:00", "22:00", "2026-03-02T12:59Z", "2026-03-02T13:00Z")]
    [InlineData("07:00", "22:00", "2026-03-03T04:00Z", "2026-03-03T13:00Z")]
    [InlineData("21:00", "06:00", "2026-03-02T08:00Z", "2026-03-02T08:00Z")]
    [InlineData("21:00", "06:00", "2026-03-02T18:00Z", "2026-03-03T03:00Z")]
    [InlineData("07:00", "22:00", "2026-03-08T05:00Z", "2026-03-08T12:00Z")] // the night that summer time begins
    [InlineData("07:00", "22:00", "2026-11-01T04:00Z", "2026-11-01T13:00Z")] // the night that it ends
    [InlineData("02:30", "05:00", "2026-03-08T07:00Z", "2026-03-08T08:30Z")] // 02:30 does not come that night; 03:30 does
    public void The_next_moment_within_the_hours(string from, string to, string at, string open)
    {
        var hours = new ContactHours(TimeOnly.Parse(from, CultureInfo.InvariantCulture), TimeOnly.Parse(to, CultureInfo.InvariantCulture), TimeZoneInfo.FindSystemTimeZoneById("America/Chicago"));
        Assert.Equal(DateTimeOffset.Parse(open, CultureInfo.InvariantCulture), hours.NextOpen(DateTimeOffset.Parse(at, CultureInfo.InvariantCulture)));
    }
}
