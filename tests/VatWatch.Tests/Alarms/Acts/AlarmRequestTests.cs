using VatWatch.Alarms.Acts;

namespace VatWatch.Tests.Alarms.Acts;

public sealed class AlarmRequestTests
{
    [Theory]
    [InlineData(AlarmActKind.Acknowledge, "Madder Lane", "overheat", "Ada", null, null, "the vat \"Madder Lane\" cannot be the name of one")]
    [InlineData(AlarmActKind.Acknowledge, null, "overheat", "Ada", null, null, "the vat \"\" cannot")]
    [InlineData(AlarmActKind.Acknowledge, "madder-lane", null, "Ada", null, null, "the alarm \"\" cannot be the name of one")]
    [InlineData(AlarmActKind.Acknowledge, "madder-lane", "over/heat", "Ada", null, null, "the alarm \"over/heat\" cannot")]
    [InlineData(AlarmActKind.Acknowledge, "madder-lane", "overheat", null, null, null, "the name in \"by\" has 0 characters")]
    [InlineData(AlarmActKind.Shelve, "madder-lane", "overheat", "Ada", null, "out", "the time on the shelf is not given; wanted 1 to 1440 minutes")]
    [InlineData(AlarmActKind.Shelve, "madder-lane", "overheat", "Ada", double.NaN, "out", "wanted 1 to 1440 minutes")]
    [InlineData(AlarmActKind.Shelve, "madder-lane", "overheat", "Ada", 1441.0, "out", "the time on the shelf is 1441; wanted")]
    [InlineData(AlarmActKind.Shelve, "madder-lane", "overheat", "Ada", 20.0, " \u0007 ", "the reason has 0 characters")]
    [InlineData(AlarmActKind.TakeOutOfService, "madder-lane", "overheat", "Ada", null, null, "the reason has 0 characters")]
    [InlineData(AlarmActKind.Note, "madder-lane", null, "Ada", null, "", "the note has 0 characters")]
    public void What_is_not_whole_is_refused_with_what_was_wanted(AlarmActKind kind, string? vat, string? alarm, string? by, double? minutes, string? text, string told)
    {
        Assert.False(new AlarmRequest(kind, vat, alarm, by, "api") { Minutes = minutes, Text = text }.TryMake(out _, out var fault));
        Assert.Contains(told, fault, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_whole_is_cleaned_and_carries_only_what_its_kind_has()
    {
        Assert.True(new AlarmRequest(AlarmActKind.Shelve, "daemon", "bus-lost.bench", " A\u202eda\t", "page") { Minutes = 30, Text = "new\r\ncable" }.TryMake(out var act, out _));
        Assert.Equal(new AlarmAct(AlarmActKind.Shelve, new("daemon"), new("bus-lost.bench"), "Ada", "page") { For = TimeSpan.FromMinutes(30), Text = "new cable" }, act);
        Assert.True(new AlarmRequest(AlarmActKind.Acknowledge, "madder-lane", "overheat", "Ada", "page") { Minutes = 30, Text = "x" }.TryMake(out var plain, out _));
        Assert.Equal((TimeSpan.Zero, null), (plain.For, plain.Text));
    }

    [Theory]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public void A_note_has_at_most_200_characters(int length, bool taken) =>
        Assert.Equal(taken, new AlarmRequest(AlarmActKind.Note, "madder-lane", null, "Ada", "page") { Text = new('a', length) }.TryMake(out _, out _));

    [Fact]
    public void Every_act_has_a_word_that_is_read_back()
    {
        foreach (var kind in Enum.GetValues<AlarmActKind>())
        {
            Assert.Equal(kind, EnumWord.Find<AlarmActKind>(kind.Word()));
        }

        Assert.Null(EnumWord.Find<AlarmActKind>("silence"));
    }
}
