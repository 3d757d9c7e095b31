using System.Globalization;
using System.Text;
using VatWatch.Probes.Recorded;

namespace VatWatch.Tests.Probes.Recorded;

public class RecordedLogTests
{
    private readonly List<RecordedLogFault> _faults = [];

    private RecordedRow[] Read(string text) => [.. RecordedLog.Read(new StringReader(text), _faults.Add)];

    [Fact]
    public void Rows_are_read_with_their_line_and_an_empty_value_is_a_reading_without_one()
    {
        var rows = Read("time,probe,value\n2026-03-06T01:00:00Z,liquor,24.5\n2026-03-06T01:00:05.250Z,ph-glass,\n");
        Assert.Equal(
            [
                new RecordedRow(2, new DateTimeOffset(2026, 3, 6, 1, 0, 0, TimeSpan.Zero), new ProbeId("liquor"), 24.5),
                new RecordedRow(3, new DateTimeOffset(2026, 3, 6, 1, 0, 5, 250, TimeSpan.Zero), new ProbeId("ph-glass"), null),
            ],
            rows);
        Assert.Empty(_faults);
    }

    [Theory] // extended and basic format of ISO 8601, with and without offset
    [InlineData("2026-03-06T01:02:03Z")]
    [InlineData("2026-03-06T01:02:03")]
    [InlineData("2026-03-06 01:02:03")]
    [InlineData("2026-03-05T20:02:03-05:00")]
    [InlineData("20260306T010203Z")]
    public void Times_are_iso_8601_and_utc_when_they_name_no_offset(string time) =>
        Assert.Equal(new DateTimeOffset(2026, 3, 6, 1, 2, 3, TimeSpan.Zero), Read($"time,probe,value\n{time},liquor,1").Single().Time);

    [Fact]
    public void Columns_are_found_by_name_in_any_order_case_and_company()
    {
        var rows = Read(
            "Unit,VALUE,note, Probe ,Time\r\n°C,\"46.2\",\"hot, \"\"very\"\"\r\nindeed\",liquor,2026-03-06T01:00:00Z\r\n"
            + "°C,46.3,,liquor,2026-03-06T01:00:05Z\r\n");
        Assert.Equal([46.2, 46.3], rows.Select(row => row.Value!.Value));
        // The quoted field spans two lines.
        Assert.Equal([2, 4], rows.Select(row => row.Line));
        Assert.Empty(_faults);
    }

    [Theory]
    [InlineData("2026-03-01T21:30:05Z", true)]
    [InlineData("2024-02-29T23:59:59Z", true)]
    [InlineData("2026-02-29T21:30:05Z", false)]
    [InlineData("2026-13-01T21:30:05Z", false)]
    [InlineData("2026-03-00T21:30:05Z", false)]
    [InlineData("2026-03-01T24:00:00Z", false)]
    [InlineData("2026-03-01T21:60:05Z", false)]
    [InlineData("2026-03-01T21:30:60Z", false)]
    [InlineData("0000-03-01T21:30:05Z", false)]
    [InlineData("20x6-03-01T21:30:05Z", false)]
    [InlineData("2026-03-01T21:3 :05Z", false)]
    [InlineData("२०२६-03-01T21:30:05Z", false)]
    public void A_time_written_as_usual_is_read_as_the_framework_reads_it(string time, bool isTime)
    {
        const DateTimeStyles utc = DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal;
        Assert.Equal(isTime, DateTimeOffset.TryParseExact(time, "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", CultureInfo.InvariantCulture, utc, out var wanted));
        Assert.Equal(isTime, RecordedLog.TryTime(time, out var read));
        Assert.Equal(wanted, read);
    }

    [Fact]
    public void An_empty_time_is_no_time_even_in_the_first_row()
    {
        Assert.Empty(Read("time,probe,value\n,liquor,1\n"));
        Assert.Contains("time is \"\"", Assert.Single(_faults).Sentence);
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Lines_of_any_length_are_read_wherever_a_block_of_the_file_ends(string end)
    {
        var (text, start) = (new StringBuilder("time,probe,value,note" + end), new DateTimeOffset(2026, 3, 6, 1, 0, 0, TimeSpan.Zero));
        for (var row = 0; row < 3000; row++)
        {
            var note = new string('x', row % 97);
            text.Append(CultureInfo.InvariantCulture, $"{start.AddSeconds(row / 3):yyyy-MM-dd'T'HH:mm:ss'Z'},liquor,{row},{(row % 5 == 0 ? $"\"{note}, \"\"so\"\"\"" : note)}").Append(end);
        }

        var rows = Read(text.ToString());
        Assert.Empty(_faults);
        Assert.Equal(Enumerable.Range(0, 3000).Select(row => (row + 2, start.AddSeconds(row / 3), (double?)row)), rows.Select(row => (row.Line, row.Time, row.Value)));
    }

    [Fact]
    public void Each_bad_line_is_told_with_its_number_and_the_rest_is_read()
    {
        var rows = Read(
            "time,probe,value\nyesterday,liquor,1\n2026-03-06T01:00:00Z,,1\n2026-03-06T01:00:00Z,liquor,warm\n2026-03-06T01:00:00Z\n\n"
            + "2026-03-06T01:00:00Z,liquor,NaN\n2026-03-06T01:00:00Z,li\"quor,1\n2026-03-06T01:00:09Z,liquor,44\n");
        Assert.Equal(9, Assert.Single(rows).Line);
        Assert.Equal([2, 3, 4, 5, 7, 8], _faults.Select(fault => fault.Line));
        Assert.Equal("line 2: time is \"yesterday\"; wanted ISO 8601 like \"2026-03-01T21:30:05Z\"", _faults[0].ToString());
        Assert.Contains("value is \"warm\"; wanted a number", _faults[2].Sentence);
        Assert.Contains("1 fields; wanted at least 3", _faults[3].Sentence);
        Assert.Contains("quotation mark", _faults[5].Sentence);
    }

    [Fact]
    public void What_stands_in_it_steers_nobodys_terminal()
    {
        var row = Assert.Single(Read("time,probe,value,quality,reason\n2026-03-06T01:00:00Z,liquor,,fault,\u001b[2Jopen \u202ewire\n\u202enow,liquor,1\u001b,,\n"));
        Assert.Equal("[2Jopen wire", row.Reason);
        Assert.Equal("time is \"now\"; wanted ISO 8601 like \"2026-03-01T21:30:05Z\"", Assert.Single(_faults).Sentence);
    }

    [Theory]
    [InlineData("", "the log is empty")]
    [InlineData(
        "2026-03-06T01:00:00Z,liquor,24.5\n",
        "the first line is \"2026-03-06T01:00:00Z,liquor,24.5\"; wanted a line that names the columns time, probe and value")]
    public void A_file_without_its_first_line_is_refused(string text, string sentence) =>
        Assert.Contains(sentence, Assert.Throws<RecordedLogException>(() => Read(text)).Message);

    [Fact]
    public void A_quotation_mark_left_open_costs_no_more_than_the_longest_line()
    {
        var filler = string.Concat(Enumerable.Repeat("2026-03-06T01:00:00Z,liquor,24.5\n", 400));
        var rows = Read("time,probe,value\n2026-03-06T01:00:00Z,\"liquor,1\n" + filler);
        Assert.Equal(2, Assert.Single(_faults).Line);
        // 10 000 characters are 303 of these lines.
        Assert.InRange(rows.Length, 90, 100);
        Assert.Equal(402, rows[^1].Line);
    }

    [Fact]
    public void Random_text_never_throws_after_a_good_first_line()
    {
        var random = new Random(20260306);
        const string alphabet = "0123456789-:TZ.,,,\"\"\r\n\n aé\0";
        for (var round = 0; round < 500; round++)
        {
            var noise = new string([.. Enumerable.Range(0, random.Next(300)).Select(_ => alphabet[random.Next(alphabet.Length)])]);
            Read("time,probe,value\n" + noise);
        }

        Assert.NotEmpty(_faults);
        Assert.All(_faults, fault => Assert.NotEqual("", fault.Sentence));
    }

    [Fact] // a block at a time, however long the log
    public void A_log_is_read_as_it_is_asked_for()
    {
        var text = "time,probe,value\n" + string.Concat(Enumerable.Repeat("2026-03-06T01:00:00Z,liquor,1\n", 1000));
        using var reader = new StringReader(text);
        Assert.Equal(2, RecordedLog.Read(reader, _faults.Add).First().Line);
        Assert.InRange(reader.ReadToEnd().Length, text.Length - 5000, text.Length);
    }
}
