using System.Diagnostics;
using System.Text.Json;

namespace VatWatch.Daemon.Tests.Verbs.Plan;

public sealed class PlanDayVerbTests : IDisposable
{
    private readonly Bench _bench = new();

    [Fact]
    public async Task Json_holds_loads_and_end()
    {
        var (code, said, error) = await DayAsync("--goods", "2 lb wool x 4 dips", "--goods", "500 g cotton x 6 dips", "--heater", "1500 W", "--json");
        Assert.Equal((0, ""), (code, error));
        using var json = JsonDocument.Parse(said);
        var loads = json.RootElement.GetProperty("loads").EnumerateArray().ToList();
        Assert.Equal(["cotton", "wool"], loads.Select(load => load.GetProperty("kind").GetString()));
        Assert.Equal([6, 4], loads.Select(load => load.GetProperty("dips").GetArrayLength()));
        Assert.Equal(907.2, loads[1].GetProperty("grams").GetDouble());
        var ends = json.RootElement.GetProperty("ends").GetDateTimeOffset();
        Assert.Equal(loads.Max(load => load.GetProperty("ends").GetDateTimeOffset()), ends);
        Assert.InRange(ends, json.RootElement.GetProperty("endsEarly").GetDateTimeOffset(), json.RootElement.GetProperty("endsLate").GetDateTimeOffset());
        Assert.Equal(9, json.RootElement.GetProperty("begins").GetDateTimeOffset().Hour);
    }

    [Fact]
    public async Task A_person_reads_a_sheet_of_dips_in_order_of_time()
    {
        var (code, said, _) = await DayAsync("--goods", "1 kg wool x 2 dips", "--heater", "1500 W");
        Assert.Equal(0, code);
        Assert.Contains("09:00 to 09:10  load 1, dip 1 of 2; air until 09:20", said, StringComparison.Ordinal);
        Assert.Contains("  ends           09:40", said, StringComparison.Ordinal);
        Assert.Contains("How warm the liquor is now is not known: nothing was measured yet.", string.Join(' ', said.Split(default(char[]), StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--goods is 'wool'; wanted goods such as", "--goods", "wool")]
    [InlineData("--dip is '10'; wanted a length of time", "--goods", "1 kg wool x 2 dips", "--dip", "10")]
    [InlineData("--dip is '9 h'; wanted a length of time", "--goods", "1 kg wool x 2 dips", "--dip", "9 h")]
    public async Task What_cannot_be_read_is_wrong_usage(string words, params string[] options)
    {
        var (code, _, error) = await DayAsync(options);
        Assert.Equal(64, code);
        Assert.Contains(words, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_calendar_that_cannot_be_written_is_said()
    {
        var (code, said, error) = await DayAsync("--goods", "1 kg wool x 2 dips", "--ics", "/nowhere/day.ics");
        Assert.Equal((1, ""), (code, said));
        Assert.Contains("could not be written to '/nowhere/day.ics'", error, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Starts", "processes")]
    public async Task The_calendar_is_read_by_another_program()
    {
        var file = Path.Combine(Path.GetDirectoryName(_bench.Config)!, "day.ics");
        var (code, _, error) = await DayAsync("--goods", "1 kg wool, raw x 14 dips", "--heater", "1500 W", "--ics", file);
        Assert.Equal((0, ""), (code, error));
        var night = Path.ChangeExtension(file, ".warm.ics");
        (code, _, error) = await _bench.RunAsync(["plan", "warm", "--vat", "weld-60", "--ready", TimeProvider.System.GetLocalNow().AddHours(12).ToString("HH:mm"), "--from", "18 °C", "--heater", "1500 W", "--ics", night]);
        Assert.Equal((0, ""), (code, error));
        Assert.All((File.ReadAllText(file) + File.ReadAllText(night)).Split("\r\n"), line => Assert.True(System.Text.Encoding.UTF8.GetByteCount(line) <= 75, line));

        // Debian's python3-icalendar, which refuses what RFC 5545 does not allow in a property.
        const string script = """
            import sys
            from icalendar import Calendar
            for file in sys.argv[1:]:
                calendar = Calendar.from_ical(open(file, "rb").read())
                assert calendar["VERSION"] == "2.0" and not calendar.errors
                events = calendar.walk("VEVENT")
                assert len({event["UID"] for event in events}) == len(events)
                for event in events:
                    assert not event.errors and event.decoded("DTSTART") < event.decoded("DTEND") and event.decoded("DTSTAMP")
                    bells = [bell.decoded("TRIGGER") for bell in event.walk("VALARM") if not bell.errors]
                    print(event.decoded("DTSTART").strftime("%H:%M"), event["SUMMARY"], *["rings" for bell in bells if bell.total_seconds() == 0])
            """;
        using var python = Process.Start(new ProcessStartInfo("/usr/bin/python3", ["-c", script, file, night]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var read = await python.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var complaint = await python.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await python.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal("", complaint);
        Assert.Equal(17 + read.Split("add to the vat").Length - 1, read.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length); // 14 dips, the rest after three hours, what is added on the way, and the heater on and off
        Assert.Contains("weld-60: switch on the heater rings\n", read, StringComparison.Ordinal);
        Assert.Contains("weld-60: switch off the heater rings\n", read, StringComparison.Ordinal);
        Assert.Contains("weld-60: load 1, dip 1 of 14: 1.00 kg wool, raw\n", read, StringComparison.Ordinal);
        Assert.Contains("add to the vat", read, StringComparison.Ordinal);
        Assert.Contains("the vat rests", read, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private Task<(int Code, string Out, string Error)> DayAsync(params string[] options) => _bench.RunAsync(["plan", "day", "--vat", "weld-60", "--start", "09:00", .. options]);
}
