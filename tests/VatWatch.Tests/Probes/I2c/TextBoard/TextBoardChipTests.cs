using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.I2c.TextBoard;
using VatWatch.Testing;
using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c.TextBoard;

/// <summary>An electrode board that speaks text, byte by byte.</summary>
public sealed class TextBoardChipTests
{
    private const string Plain = """{ "address": "0x63", "ask": "R", "wait": "10 ms", "unit": "pH" }""";

    [Fact]
    public async Task Asking_puts_these_bytes_on_the_wire()
    {
        var (sample, log) = await TakeAsync(new TextBoardRegisters { Value = 9.81, LooksPerAnswer = 1 }, Plain);

        Assert.Equal(Sample.Good(9.81), sample);
        Assert.Equal(["63 W 52", $"63 R FE{Zeros(47)}", $"63 R 01 39 2E 38 31 30{Zeros(42)}"], log);
    }

    [Theory]
    [InlineData("9.810,OK", """ "pattern": "^(?<value>[0-9.]+),(?<status>[A-Z]+)$", "status": { "OK": "good" } """, 9.81)]
    [InlineData("?PH,9.810\r", """ "pattern": "^\\?PH,(?<value>[0-9.]+)$" """, 9.81)]
    [InlineData("981", """ "scale": 0.01 """, 9.81)]
    [InlineData("9,81", """ "pattern": "^(?<value>[0-9,]+)$", "decimal": "," """, 9.81)]
    public async Task A_text_is_taken_apart_as_a_line_of_an_instrument_is(string text, string more, double value)
    {
        var (sample, _) = await TakeAsync(new TextBoardRegisters { ForcedText = text }, Plain.Replace(" }", $", {more} }}", StringComparison.Ordinal));
        Assert.Equal(value, sample.Value!.Value, 1e-9);
    }

    [Fact]
    public async Task The_board_is_told_the_liquors_temperature_and_it_stands_with_the_reading()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x63, new TextBoardRegisters { Value = 10.8 });
        var clock = new FakeTimeProvider();
        var known = new KnownTemperatures(new WatchClock(clock));
        var probe = I2cRig.Make(new TextBoardDriver(), Plain.Replace("\"R\"", "\"RT,{temperature}\"", StringComparison.Ordinal), Quantity.Ph, rig.Bus, known);
        await rig.Bus.OpenAsync(I2cRig.Stop);
        var untold = Sample.Missing("not asked, because it must be told the liquor's temperature and there is no good one");
        Assert.Equal(untold, await probe.TakeSampleAsync(I2cRig.Stop));
        Assert.Empty(rig.Bench.Log.Take());

        known.Note(SampleVats.MadderLane().Id, 49.98, TimeSpan.FromSeconds(5));
        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((10.3, "told 50.0 °C"), (Math.Round(sample.Value!.Value, 6), sample.Reason));
        Assert.Equal("63 W 52 54 2C 35 30 2E 30", rig.Bench.Log.Take()[0]);

        clock.Advance(TimeSpan.FromSeconds(61));
        Assert.Equal(untold, await probe.TakeSampleAsync(I2cRig.Stop));
    }

    [Theory]
    [InlineData("X", 0, null, null, "the electrode board does not understand 'X' (status 2)")]
    [InlineData("R", 0, "*ER", null, "the answer of the electrode board to 'R' was '*ER', which does not match the pattern")]
    [InlineData("R", 0, "", null, "the answer of the electrode board to 'R' was '', which does not match the pattern")]
    [InlineData("R", 0x80, null, null, @"the bytes of the electrode board are spoilt ('\xB1\xB0\xAE\xB0\xB0\xB0'): the computer does not wait while the board holds the clock; set a low speed")]
    [InlineData("R", 0, null, 0x81, "the electrode board's status is 129; wanted 1, 2, 254 or 255: another chip, or the computer does not wait while the board holds the clock; set a low speed")]
    public async Task Every_answer_that_is_no_value_is_told(string ask, byte spoils, string? text, int? status, string reason)
    {
        var board = new TextBoardRegisters { Spoils = spoils, ForcedText = text, ForcedStatus = (byte?)status };
        var (sample, _) = await TakeAsync(board, Plain.Replace("\"R\"", $"\"{ask}\"", StringComparison.Ordinal));
        Assert.Equal(Sample.Fault(reason), sample);
    }

    [Fact]
    public async Task A_board_that_lost_the_command_is_asked_once_more()
    {
        var (sample, _) = await TakeAsync(new TextBoardRegisters { Loses = 1 }, Plain);
        Assert.Equal(Sample.Good(10), sample);

        (sample, _) = await TakeAsync(new TextBoardRegisters { Loses = 2 }, Plain);
        Assert.Equal("the electrode board at 0x63 on I2C bus 1: it has nothing to say to 'R' (status 255): it has lost the command; check its supply", sample.Reason);
    }

    [Fact]
    public async Task A_board_that_never_ends_its_work_is_told()
    {
        var (sample, log) = await TakeAsync(new TextBoardRegisters { LooksPerAnswer = 100 }, Plain);
        Assert.Equal(Sample.Fault("the electrode board still works on 'R' (status 254); give it a longer \"wait\""), sample);
        Assert.Equal(11, log.Count);
    }

    [Theory]
    [InlineData("""{ "address": "0x63", "unit": "pH" }""", "settings.ask is missing; wanted 1 to 128 ASCII characters")]
    [InlineData("""{ "address": "0x78", "ask": "R", "unit": "pH" }""", "settings.address is \"0x78\"; wanted an I2C address from \"0x08\" to \"0x77\".")]
    [InlineData("""{ "address": "0x63", "ask": "R", "wait": "3 s", "unit": "pH" }""", "settings.wait is \"3 s\"; wanted a length of time with its unit")]
    [InlineData("""{ "address": "0x63", "ask": "R", "unit": "°C" }""", "settings.unit is \"°C\"; wanted \"pH\"")]
    public void One_sentence_says_what_is_wrong(string settings, string sentence) =>
        Assert.StartsWith(sentence, Assert.Single(I2cRig.FaultsOf(new TextBoardDriver(), settings, Quantity.Ph)), StringComparison.Ordinal);

    private static async Task<(Sample Sample, IReadOnlyList<string> Log)> TakeAsync(TextBoardRegisters board, string settings)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x63, board);
        var probe = await rig.OpenAsync(new TextBoardDriver(), settings, Quantity.Ph);
        return (await probe.TakeSampleAsync(I2cRig.Stop), rig.Bench.Log.Take());
    }

    private static string Zeros(int count) => string.Concat(Enumerable.Repeat(" 00", count));
}
