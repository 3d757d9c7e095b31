using VatWatch.Sessions;

namespace VatWatch.Tests.Sessions;

public sealed class SessionTests
{
    private static readonly DateTimeOffset Noon = new(2031, 3, 14, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_report_covers_the_session_and_up_to_now_while_it_goes_on()
    {
        Assert.Equal((Noon, Noon.AddHours(3)), Begun(Noon.AddHours(3)).Span(Noon.AddHours(9)));
        Assert.Equal((Noon, Noon.AddHours(2)), Begun(null).Span(Noon.AddHours(2)));
    }

    [Fact]
    public void A_session_of_a_moment_is_drawn_with_some_width_and_never_into_the_future()
    {
        Assert.Equal((Noon, Noon + Session.LeastSpan), Begun(Noon.AddSeconds(3)).Span(Noon.AddHours(1)));
        Assert.Equal((Noon.AddSeconds(5) - Session.LeastSpan, Noon.AddSeconds(5)), Begun(null).Span(Noon.AddSeconds(5)));
    }

    private static Session Begun(DateTimeOffset? ended) =>
        new() { Vat = new("madder-lane"), Id = new("2031-03-14"), Started = new Stamp(Noon, TimeSpan.Zero, true), Ended = ended, By = "anyone" };
}
