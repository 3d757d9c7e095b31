using Microsoft.AspNetCore.Http;
using VatWatch.Daemon.Web.Drawing;

namespace VatWatch.Daemon.Tests.Web.Drawing;

public sealed class ChartRangeTests
{
    private static readonly TimeZoneInfo West = TimeZoneInfo.CreateCustomTimeZone("west", TimeSpan.FromHours(-7), "west", "west");

    [Fact]
    public void A_moment_without_a_zone_is_one_of_the_studios_clock()
    {
        Assert.True(TryRead(out var range, ("from", "2026-03-04T20:00"), ("to", "2026-03-05T06:00:00Z")));

        Assert.Equal(new DateTimeOffset(2026, 3, 5, 3, 0, 0, TimeSpan.Zero), range.From);
        Assert.Equal(new DateTimeOffset(2026, 3, 5, 6, 0, 0, TimeSpan.Zero), range.To);
        Assert.Equal(TimeSpan.Zero, range.From!.Value.Offset);
    }

    [Fact]
    public void What_cannot_be_read_gives_the_usual_stretch()
    {
        Assert.False(TryRead(out var range, ("from", "9999-12-31T23:59:59Z"), ("to", "0001-01-01T00:00:00Z")));
        Assert.Equal(ChartRange.Default, range);
    }

    [Fact]
    public void Hours_and_session_are_read()
    {
        Assert.True(TryRead(out var hours, ("hours", "24")));
        Assert.Equal(24, hours.Hours);
        Assert.True(TryRead(out var session, ("range", "session")));
        Assert.True(session.IsSession);
        Assert.True(TryRead(out var none));
        Assert.Equal(ChartRange.Default, none);
    }

    private static bool TryRead(out ChartRange range, params (string Key, string Value)[] query) =>
        ChartRange.TryRead(new QueryCollection(query.ToDictionary(one => one.Key, one => new Microsoft.Extensions.Primitives.StringValues(one.Value))), West, out range);
}
