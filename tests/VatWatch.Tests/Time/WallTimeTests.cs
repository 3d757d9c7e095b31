namespace VatWatch.Tests.Time;

public sealed class WallTimeTests
{
    private static readonly DateTimeOffset Winter = new(2026, 3, 2, 2, 5, 10, TimeSpan.Zero);

    [Theory]
    [InlineData("America/Chicago", "2026-03-01 20:05:10 UTC−06:00")]
    [InlineData("Asia/Kolkata", "2026-03-02 07:35:10 UTC+05:30")]
    [InlineData("Etc/UTC", "2026-03-02 02:05:10 UTC")]
    public void A_moment_is_told_by_the_wall_and_its_distance_from_UTC(string zone, string told) =>
        Assert.Equal(told, WallTime.Text(Winter, TimeZoneInfo.FindSystemTimeZoneById(zone)));

    [Fact]
    public void Summer_time_moves_it() =>
        Assert.Equal("2026-07-01 21:05:10 UTC−05:00", WallTime.Text(new(2026, 7, 2, 2, 5, 10, TimeSpan.Zero), TimeZoneInfo.FindSystemTimeZoneById("America/Chicago")));
}
