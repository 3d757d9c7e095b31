using VatWatch.Pipeline.Replay;
using VatWatch.Probes.Recorded;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Pipeline.Replay;

public sealed class RecordedEntriesTests
{
    private readonly List<string> _faults = [];

    [Fact]
    public void Every_entry_of_the_log_book_is_read()
    {
        var entries = Read(
            """
            time,entry,value
            2031-03-14T20:00:00Z,heater-on,ready 07:30
            2031-03-14T20:01:00Z,heater-on,
            2031-03-14T20:02:00Z,heater-on,ready 2031-03-15T09:00Z
            2031-03-14 20:03,heater-off,
            2031-03-14T20:04:00Z,yarn-in,
            2031-03-14T20:05:00Z,dip-out,
            2031-03-14T20:06:00Z,added,soda-ash 50.5 g
            2031-03-14T20:07:00Z,top-up,10 L
            2031-03-14T20:08:00Z,stir,
            2031-03-14T20:09:00Z,lid-off,
            2031-03-14T20:10:00Z,note,"coppery, at last"
            """);
        Assert.Empty(_faults);
        Assert.Equal(
            [
                EntryKind.HeaterOn, EntryKind.HeaterOn, EntryKind.HeaterOn, EntryKind.HeaterOff, EntryKind.DipIn, EntryKind.DipOut, EntryKind.Added, EntryKind.Added, EntryKind.Stirred,
                EntryKind.LidOff, EntryKind.Note,
            ],
            entries.Select(entry => entry.Kind));
        Assert.Equal([At("2031-03-15T07:30Z"), null, At("2031-03-15T09:00Z")], entries.Take(3).Select(entry => entry.ReadyBy));
        Assert.Equal([Material.SodaAsh, Material.Water], entries.Select(entry => entry.Material).OfType<Material>());
        Assert.Equal((2L, At("2031-03-14T20:00Z")), (entries[0].Id, entries[0].At.Utc));
    }

    [Theory]
    [InlineData("added,stock 2 L of 60 g/L", "added 2 L of stock, 60 g/L", 2.0, 60.0)]
    [InlineData("added,soda-ash 50 g", "added 50 g of soda ash", 50.0, null)]
    [InlineData("added,reducing-agent 20 g 88 %", "added 20 g of reducing agent, 88 %", 20.0, 0.88)]
    [InlineData("added,\"indigo 0,5 kg 40 %\"", "added 500 g of indigo, 40 %", 500.0, 0.4)]
    [InlineData("top-up,2 gal", "added 7.6 L of water", 7.570823568, null)]
    [InlineData("drawn-off,5 L", "drew off 5 L of liquor", 5.0, null)]
    [InlineData("made-anew,150 litres", "made anew with 150 L", 150.0, null)]
    [InlineData("reading,ph 9.8", "read by hand: pH 9.8", 9.8, null)]
    [InlineData("reading,temperature 113 F", "read by hand: 45.0 °C", 45.0, null)]
    [InlineData("reading,orp -640 mV", "read by hand: ORP -640 mV", -640.0, null)]
    [InlineData("reading,indigo 2.5 g/L", "read by hand: indigo 2.5 g/L", 2.5, null)]
    [InlineData("reading,alkalinity 20 meq/L", "read by hand: alkalinity 20 meq/L", 20.0, null)]
    [InlineData("sign,flower", "flower", null, null)]
    [InlineData("sign,drop 12 s", "a drop turned blue in 12 s", 12.0, null)]
    [InlineData("goods,yarn 500 g", "500 g of yarn, dry", 500.0, null)]
    [InlineData("goods,cloth 2 lb", "907 g of cloth, dry", 907.18474, null)]
    [InlineData("stirred,with the long paddle", "stirred: with the long paddle", null, null)]
    public void The_value_of_an_entry_is_kept_with_amount_and_strength(string line, string told, double? amount, double? strength)
    {
        var entry = Assert.Single(Read($"time,entry,value\n2031-03-14T20:00:00Z,{line}\n"));
        Assert.Empty(_faults);
        Assert.Equal(told, entry.Line(DisplayUnits.Si, TimeZoneInfo.Utc));
        Assert.Equal(amount ?? double.NaN, entry.Amount ?? double.NaN, 1e-6);
        Assert.Equal(strength, entry.Strength);
    }

    [Theory]
    [InlineData("2031-03-14T20:00:00Z,boil,", "line 3: entry is \"boil\"; wanted one of dip-in, dip-out, added")]
    [InlineData("tonight,heater-on,", "line 3: time is \"tonight\"; wanted ISO 8601")]
    [InlineData("2031-03-14T20:00:00Z,heater-on,ready soon", "line 3: value is \"ready soon\"; wanted nothing, \"ready 09:00\"")]
    [InlineData("2031-03-14T20:00:00Z,added,50 g", "line 3: value is \"50 g\"; wanted what was added and how much, such as \"soda-ash 50 g\"")]
    [InlineData("2031-03-14T20:00:00Z,added,water 5 g", "wanted what was added")]
    [InlineData("2031-03-14T20:00:00Z,top-up,-5 L", "wanted what was added")]
    [InlineData("2031-03-14T20:00:00Z,drawn-off,5 g", "line 3: value is \"5 g\"; wanted a volume such as \"5 L\"")]
    [InlineData("2031-03-14T20:00:00Z,made-anew,5000 L", "line 3: value is \"5000 L\"; the amount of new liquor is 5000 L; wanted more than 0 and at most 2000 L")]
    [InlineData("2031-03-14T20:00:00Z,reading,ph 44", "line 3: value is \"ph 44\"; the pH that was read is 44; wanted 0 to 14")]
    [InlineData("2031-03-14T20:00:00Z,reading,temperature 44", "wanted what was read and its value")]
    [InlineData("2031-03-14T20:00:00Z,sign,drop", "wanted a sign: flower, no-flower")]
    [InlineData("2031-03-14T20:00:00Z,sign,flower 3", "wanted a sign: flower, no-flower")]
    [InlineData("2031-03-14T20:00:00Z,goods,yarn", "wanted the kind of goods and their dry weight")]
    [InlineData("2031-03-14T20:00:00Z,added,stock 2 L of 60 %", "or with its strength")]
    [InlineData("2031-03-14T20:00:00Z,added,water 2 L 50 %", "line 3: value is \"water 2 L 50 %\"; water has no strength")]
    [InlineData("2031-03-14T20:00:00Z,note,", "line 3: value is empty; wanted the text of the note")]
    [InlineData("2031-03-14T18:00:00Z,heater-on,", "line 3: time is 2031-03-14 18:00:00Z, before the line above it; wanted lines in order of time")]
    [InlineData("2031-03-14T20:00:00Z", "line 3: 1 fields; wanted at least 3")]
    public void A_line_that_is_no_entry_is_told_and_left_out(string line, string told)
    {
        var entries = Read($"time,entry,value\n2031-03-14T19:00:00Z,heater-off,\n{line}\n2031-03-14T21:00:00Z,heater-on,\n");
        Assert.Equal([EntryKind.HeaterOff, EntryKind.HeaterOn], entries.Select(entry => entry.Kind));
        Assert.StartsWith(told.StartsWith("line", StringComparison.Ordinal) ? told : "line 3", Assert.Single(_faults), StringComparison.Ordinal);
        Assert.Contains(told, _faults[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "the file is empty")]
    [InlineData("time,probe,value\n", "the first line is \"time,probe,value\"; wanted a line that names the columns time, entry and value")]
    public void A_file_of_something_else_is_refused(string text, string told) =>
        Assert.Contains(told, Assert.Throws<RecordedLogException>(() => Read(text)).Message, StringComparison.Ordinal);

    private IReadOnlyList<SessionEntry> Read(string text) => new RecordedEntries(TimeZoneInfo.Utc).Read(new StringReader(text), fault => _faults.Add(fault.ToString()));

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
