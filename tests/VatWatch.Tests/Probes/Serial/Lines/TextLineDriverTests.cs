using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Serial.Lines;

/// <summary>What the configuration may say, and the sentence for everything else.</summary>
public sealed class TextLineDriverTests
{
    private const string Good = "\"pattern\": \"^(?<value>[-+0-9.]+)$\"";

    [Theory]
    [InlineData("""{ "pattern": "^[0-9]+$", "unit": "°C" }""", "settings.pattern is \"^[0-9]+$\"; wanted a regular expression of at most 1000 characters with the named group (?<value>...)")]
    [InlineData("""{ "pattern": "(?<value>", "unit": "°C" }""", "settings.pattern is \"(?<value>\"; wanted a regular expression")]
    [InlineData("""{ "unit": "°C" }""", "settings.pattern is missing; wanted a regular expression")]
    [InlineData($$"""{ {{Good}} }""", "settings.unit is missing; wanted \"°C\", \"°F\" or \"K\".")]
    [InlineData($$"""{ {{Good}}, "unit": "mV" }""", "settings.unit is \"mV\"; wanted \"°C\", \"°F\" or \"K\".")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "ask": "T\\q" }""", @"settings.ask is ""T\q""; wanted 1 to 128 ASCII characters")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "ask": "\\x4" }""", @"settings.ask is ""\x4""; wanted 1 to 128 ASCII characters")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "ask": "°" }""", @"settings.ask is ""°""; wanted 1 to 128 ASCII characters")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "ending": "nul" }""", "settings.ending is \"nul\"; wanted one of \"any\", \"lf\", \"cr\", \"crlf\".")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "status": { "OK": "good" } }""", "settings.status is without a group in the pattern called \"status\"; wanted (?<status>...) in the pattern.")]
    [InlineData("""{ "pattern": "(?<value>.)(?<status>.)", "unit": "°C", "status": { "A": "fine" } }""", "settings.status.A is \"fine\"; wanted one of \"good\", \"suspect\", \"fault\".")]
    [InlineData("""{ "pattern": "(?<value>.)(?<status>.)", "unit": "°C", "status": { } }""", "settings.status is an empty object; wanted each status word")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "checksum": { "kind": "xor", "group": "sum" } }""", "settings.checksum is without a group in the pattern called \"sum\"")]
    [InlineData("""{ "pattern": "(?<value>.)(?<sum>.)", "unit": "°C", "checksum": { "kind": "md5", "group": "sum" } }""", "settings.checksum.kind is \"md5\"; wanted one of \"xor\", \"crc-8\", \"crc-16-modbus\".")]
    [InlineData("""{ "pattern": "(?<value>.)(?<sum>.)", "unit": "°C", "checksum": { "kind": "xor", "group": "sum", "from": 1 } }""", "settings.checksum.from is an unknown key")]
    [InlineData($$"""{ {{Good}}, "unit": "°C", "timeout": 1 }""", "settings.timeout is an unknown key")]
    public void One_sentence_says_what_is_wrong(string settings, string sentence)
    {
        var fault = Assert.Single(SerialBench.FaultsOf(new TextLineDriver(), settings));
        Assert.StartsWith(sentence, fault);
    }

    [Fact]
    public void Escapes_become_the_bytes_that_are_sent()
    {
        Assert.True(AskText.TryParse(@"A\r\n\t\\\x02\xfF", out var ask));
        Assert.Equal([0x41, 13, 10, 9, 0x5C, 2, 255], ask.Bytes.ToArray());
        Assert.Equal(@"A\r\n\t\\\x02\xFF", AskText.Show(ask.Bytes.Span));
        Assert.False(AskText.TryParse(new string('A', 129), out _));
    }

    [Theory]
    [InlineData("""{ "port": "/dev/ttyUSB0", "baud": 200 }""", "settings.baud is 200; wanted a whole number from 300 to 1000000.")]
    [InlineData("""{ "port": "/dev/ttyUSB0", "parity": "mark" }""", "settings.parity is \"mark\"; wanted one of \"none\", \"even\", \"odd\".")]
    [InlineData("""{ "port": "/dev/ttyUSB0", "dataBits": 9 }""", "settings.dataBits is 9; wanted a whole number from 7 to 8.")]
    [InlineData("""{ "port": "/dev/ttyUSB0", "replyTimeout": 5 }""", "settings.replyTimeout is 5; wanted a length of time with its unit")]
    [InlineData("""{ "port": "/dev/ttyUSB0", "replyTimeout": "5 s" }""", "settings.replyTimeout is \"5 s\"; wanted a length of time with its unit, such as \"5 s\", from 20 ms to 4 s.")]
    [InlineData("""{ "baud": 9600 }""", "settings.port is missing; wanted the path of a serial port")]
    public void The_port_is_checked_too(string settings, string sentence)
    {
        var node = SerialBench.Node(settings, out var faults);
        new SerialBusKind().Read(new BusId("bench"), node);
        node.Done();
        Assert.StartsWith(sentence, Assert.Single(faults.All).ToString());
    }

    [Theory]
    [InlineData(1200, true, 32.083)]
    [InlineData(9600, true, 4.010)]
    [InlineData(19200, true, 2.005)]
    [InlineData(38400, true, 1.750)]
    public void The_rest_before_a_request_is_that_of_the_serial_line_guide(int baud, bool parity, double milliseconds)
    {
        // Modbus serial line guide V1.02, table of t3.5 at 11 bits for a character.
        var settings = new SerialSettings
        {
            Port = "x",
            Baud = baud,
            Parity = parity ? System.IO.Ports.Parity.Even : System.IO.Ports.Parity.None,
        };
        Assert.Equal(milliseconds, settings.Gap.TotalMilliseconds, 0.001);
    }
}
