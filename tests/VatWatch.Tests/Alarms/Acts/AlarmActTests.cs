using VatWatch.Alarms;
using VatWatch.Alarms.Acts;

namespace VatWatch.Tests.Alarms.Acts;

public sealed class AlarmActTests
{
    [Theory]
    [InlineData(AlarmActKind.Acknowledge, "vat 'madder-lane' has no alarm 'overheat' that waits for an acknowledgement")]
    [InlineData(AlarmActKind.Shelve, "vat 'madder-lane' has no alarm 'overheat' that could be shelved: there is none of that name, or it is set aside already")]
    [InlineData(AlarmActKind.Unshelve, "vat 'madder-lane' has no alarm 'overheat' on the shelf")]
    [InlineData(AlarmActKind.Reset, "vat 'madder-lane' has no alarm 'overheat' that is latched and acknowledged")]
    public void What_was_not_done_says_what_was_wanted(AlarmActKind kind, string words) => Assert.Equal(words, Act(kind).NothingDone());

    [Fact]
    public void A_note_about_a_vat_that_is_none_says_so() =>
        Assert.Equal("there is no vat 'madder-lane'", new AlarmAct(AlarmActKind.Note, new("madder-lane"), AlarmName.Note, "Ada", "page").NothingDone());

    [Fact]
    public void What_was_done_says_how_the_alarm_stands_now()
    {
        var vat = new WatchedVat().Pass(15, it => it.Measure("liquor", 60));
        Assert.Equal("overheat of madder-lane is acknowledged by Ada.", Act(AlarmActKind.Acknowledge).Done(Assert.Single(vat.Acknowledge("overheat"))));
        Assert.Equal("overheat of madder-lane is shelved for 20 min.", Act(AlarmActKind.Shelve).Done(Assert.Single(vat.Shelve("overheat", 20))));
        Assert.Equal("overheat of madder-lane is now unacknowledged.", Act(AlarmActKind.Unshelve).Done(Assert.Single(vat.Do(AlarmActKind.Unshelve, "overheat"))));
        Assert.Equal("The note is in the journal.", Act(AlarmActKind.Note).Done(Assert.Single(vat.Do(AlarmActKind.Note, "overheat", "lid was shut"))));
    }

    private static AlarmAct Act(AlarmActKind kind) => new(kind, new("madder-lane"), new("overheat"), "Ada", "page");
}
