using VatWatch.Sessions;

namespace VatWatch.Tests.Sessions;

public sealed class SessionIdTests
{
    [Theory]
    [InlineData("2031-03-14", true)]
    [InlineData("2031-03-14-2", true)]
    [InlineData("2031-03-14-0", false)]
    [InlineData("2031-03-14-02", false)]
    [InlineData("../../etc/passwd", false)]
    [InlineData("2031-03-14\n", false)]
    [InlineData("", false)]
    [InlineData(null, false)]
    public void Only_a_date_with_a_number_is_a_name(string? text, bool fits)
    {
        Assert.Equal(fits, SessionId.TryParse(text, out var id));
        Assert.Equal(fits ? text : null, id.Value);
    }

    [Theory]
    [InlineData(1, "2031-03-14")]
    [InlineData(2, "2031-03-14-2")]
    public void The_first_session_of_a_day_is_named_by_it_and_the_next_are_numbered(int number, string name) =>
        Assert.Equal(name, SessionId.Of(new DateOnly(2031, 3, 14), number).Value);
}
