using System.Text;
using VatWatch.Probes;

namespace VatWatch.Tests.Probes.Serial.Lines;

/// <summary>One line in, one value out, and everything doubtful refused.</summary>
public sealed class LinePatternTests
{
    private const string Loose = """{ "pattern": "(?<value>[-+0-9.,a-zA-Z]+)", "unit": "°C" }""";

    [Theory]
    [InlineData("6.873", 6.873)]
    [InlineData("-655", -655)]
    [InlineData("+.5", 0.5)]
    [InlineData("45.", 45)]
    [InlineData("1.5e2", 150)]
    [InlineData("-1E-3", -0.001)]
    [InlineData("000045.20", 45.2)]
    public void A_plain_number_is_a_value(string line, double value) => Assert.Equal(Sample.Good(value), Parse(Loose, line));

    [Theory]
    [InlineData("NaN")]
    [InlineData("nan")]
    [InlineData("Infinity")]
    [InlineData("-inf")]
    [InlineData("0x1F")]
    [InlineData("1F")]
    [InlineData("1e999")]
    [InlineData("1e")]
    [InlineData("--5")]
    [InlineData("4-5")]
    [InlineData("1.2.3")]
    [InlineData(".")]
    [InlineData("-")]
    [InlineData("e5")]
    [InlineData("12.x7")]
    [InlineData("123456789012345678901234567890123")]
    public void Anything_else_is_a_fault_that_names_what_was_seen(string line)
    {
        var sample = Parse(Loose, line);
        Assert.Equal(Sample.Fault($"value '{line}' is not a number like '6.873'"), sample);
    }

    [Theory]
    [InlineData("(?<value>[-+0-9.,]+)", "T=45,2C", "value '45,2' has a ','; wanted '6.873', or \"decimal\": \",\" in the settings")]
    [InlineData("(?<value>[0-9]+)", "T=45,2C", "value '45' is only a part of the number in 'T=45,2C'")]
    [InlineData("(?<value>[0-9]+)", "T=45.2C", "value '45' is only a part of the number in 'T=45.2C'")]
    [InlineData("(?<value>[0-9]+)C", "T=45,2C", "value '2' is only a part of the number in 'T=45,2C'")]
    [InlineData("(?<value>[0-9]{2})", "T=451C", "value '45' is only a part of the number in 'T=451C'")]
    [InlineData("(?<value>[0-9.]+)", "T=-45.2C", "value '45.2' is only a part of the number in 'T=-45.2C'")]
    public void A_part_of_a_number_is_never_a_value(string pattern, string line, string reason) =>
        Assert.Equal(Sample.Fault(reason), Parse($$"""{ "pattern": "{{pattern}}", "unit": "°C" }""", line));

    [Theory]
    [InlineData("""{ "pattern": "(?<value>.*)", "unit": "°C" }""", "4\r5\u001b[2J", @"value '4\r5\x1B[2J' is not a number like '6.873'")]
    [InlineData("""{ "pattern": "(?<value>[0-9]+) (?<status>.*)", "unit": "°C", "status": { "OK": "good" } }""", "45 O\rK", @"the instrument's status 'O\rK' is none of the configured words")]
    public void What_an_instrument_says_never_breaks_the_line_of_a_log(string settings, string line, string reason) =>
        Assert.Equal(Sample.Fault(reason), Parse(settings, line));

    [Fact]
    public void A_comma_that_the_pattern_names_is_a_separator() =>
        Assert.Equal(Sample.Good(45), Parse("""{ "pattern": "^(?<value>[-+0-9.]+),[^,]+$", "unit": "°C" }""", "45,9"));

    [Fact]
    public void A_line_of_another_form_is_no_value_at_all() =>
        Assert.Null(SerialBench.Pattern("""{ "pattern": "^T=(?<value>.+)$", "unit": "°C" }""").Parse("PH=9.8"u8));

    [Theory]
    [InlineData("v2.31 ready 25.0")]
    [InlineData("XR-7: 45.20")]
    [InlineData("45.20 9.81")]
    [InlineData("#12")]
    [InlineData("Err 0")]
    [InlineData("SENSOR FAIL 3")]
    public void A_line_of_several_numbers_or_of_something_that_is_numbered_is_no_value_to_a_pattern_that_says_nothing_but_value(string line)
    {
        var loose = SerialBench.Pattern(Loose.Replace("a-zA-Z", "", StringComparison.Ordinal));
        Assert.True(loose.IsLoose);
        Assert.Null(loose.Parse(Encoding.ASCII.GetBytes(line)));
        Assert.Equal(Sample.Good(45.2), loose.Parse("T = 45.2 C"u8));
        Assert.False(SerialBench.Pattern("""{ "pattern": "^(?<value>[-+0-9.]+)$", "unit": "°C" }""").IsLoose);
    }

    [Theory]
    [InlineData("\u00B45.20")]
    [InlineData("\u00AD45.20")]
    [InlineData("4\u00B5.20")]
    public void A_number_with_a_digit_whose_eighth_bit_was_set_is_no_value(string line) =>
        Assert.Equal(Quality.Fault, SerialBench.Pattern("""{ "pattern": "(?<value>[-+0-9.]+)", "unit": "°C" }""").Parse(Encoding.Latin1.GetBytes(line))!.Value.Quality);

    [Fact]
    public void Bytes_that_are_not_ASCII_match_nothing_but_a_dot()
    {
        var line = Encoding.Latin1.GetBytes("45.2\u00B0C");
        Assert.Equal(Sample.Good(45.2), SerialBench.Pattern("""{ "pattern": "^(?<value>[0-9.]+).C$", "unit": "°C" }""").Parse(line));
    }

    [Theory]
    [InlineData("9.81 OK", Quality.Good, null)]
    [InlineData("9.81 COLD", Quality.Suspect, "the instrument reports 'COLD'")]
    [InlineData("9.81 E1", Quality.Fault, "the instrument reports 'E1'")]
    [InlineData("9.81 E9", Quality.Fault, "the instrument's status 'E9' is none of the configured words")]
    [InlineData("--.- E1", Quality.Fault, "the instrument reports 'E1'")]
    [InlineData("--.- OK", Quality.Fault, "value '--.-' is not a number like '6.873'")]
    public void The_status_word_is_believed(string line, Quality quality, string? reason)
    {
        const string settings = """
            { "pattern": "^(?<value>\\S+) (?<status>\\S+)$", "unit": "pH", "status": { "OK": "good", "COLD": "suspect", "E1": "fault" } }
            """;
        var sample = SerialBench.Pattern(settings, Quantity.Ph).Parse(Encoding.ASCII.GetBytes(line))!.Value;
        Assert.Equal((quality, reason), (sample.Quality, sample.Reason));
        Assert.Equal(quality is Quality.Good or Quality.Suspect ? 9.81 : null, sample.Value);
    }

    [Theory]
    [InlineData("xor", "31")]
    [InlineData("crc-8", "F4")]
    [InlineData("crc-16-modbus", "4b37")]
    public void Checksums_agree_with_their_published_check_values(string kind, string sum)
    {
        // "123456789": CRC-16/MODBUS 4B37 from the measurement reference; CRC-8 F4 from memory of the common catalogues; xor by hand.
        var settings = $$"""
            { "pattern": "^(?<value>[0-9]{9})(?<sum>[0-9A-Fa-f]+)$", "unit": "°C", "checksum": { "kind": "{{kind}}", "group": "sum", "over": "value" } }
            """;
        Assert.Equal(Sample.Good(123456789), Parse(settings, "123456789" + sum));
        Assert.Equal(Quality.Fault, Parse(settings, "123456788" + sum).Quality);
    }

    [Fact]
    public void A_pattern_that_backtracks_without_end_is_cut_off()
    {
        // A look-ahead keeps .NET from using its engine without backtracking.
        var pattern = SerialBench.Pattern("""{ "pattern": "^(?=a)(a+)+(?<value>[0-9])$", "unit": "°C" }""");
        Assert.Null(pattern.Parse(Encoding.ASCII.GetBytes(new string('a', 400))));
    }

    private static Sample Parse(string settings, string line) => SerialBench.Pattern(settings).Parse(Encoding.ASCII.GetBytes(line))!.Value;
}
