using System.Diagnostics;
using System.Text;
using VatWatch.Probes;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>The captures of hardware-notes/text-line, whole, damaged, and drowned in noise.</summary>
public sealed class TextLineCaptureTests
{
    private const string Xor = """
        { "pattern": "^(?<body>ORP (?<value>[-+0-9.]+) mV)\\*(?<sum>[0-9A-F]{2})$", "unit": "mV", "checksum": { "kind": "xor", "group": "sum", "over": "body" } }
        """;

    private const string Crc8 = """
        { "pattern": "^PH;(?<value>[0-9.]+);(?<status>[A-Z]+);(?<sum>[0-9a-f]{2})$", "unit": "pH", "ending": "cr",
          "status": { "OK": "good", "COLD": "suspect" }, "checksum": { "kind": "crc-8", "group": "sum" } }
        """;

    private const string Crc16 = """
        { "pattern": "^#[0-9]{3} t (?<value>[0-9.]+) pH [0-9.]+ mV [-0-9.]+ (?<sum>[0-9A-F]{4})$", "unit": "°C",
          "checksum": { "kind": "crc-16-modbus", "group": "sum" } }
        """;

    private const string Plain = """{ "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" }""";
    private const string Column = """{ "pattern": "^[-0-9.]+,(?<value>[0-9.]+),[-0-9.]+$", "unit": "pH" }""";

    [Theory]
    [InlineData("asked-temperature", Plain, Quantity.Temperature, LineEnding.Lf, 21.68, 34.11, 40)]
    [InlineData("streamed-three-columns", Column, Quantity.Ph, LineEnding.Lf, 9.9, 9.744, 40)]
    [InlineData("xor-potential", Xor, Quantity.Orp, LineEnding.Lf, -680, -629.3, 40)]
    [InlineData("crc8-alkali", Crc8, Quantity.Ph, LineEnding.Cr, 9.4, 9.79, 40)]
    [InlineData("crc16-three-values", Crc16, Quantity.Temperature, LineEnding.Lf, 45, 45.429, 40)]
    public void Captures_read_as_they_were_made(
        string file, string settings, Quantity measures, LineEnding ending, double first, double last, int count)
    {
        var pattern = SerialBench.Pattern(settings, measures);
        var values = Lines(Capture(file), ending).Select(line => pattern.Parse(line)).OfType<Sample>().ToList();
        Assert.Equal(count, values.Count);
        Assert.All(values, sample => Assert.NotNull(sample.Value));
        Assert.Equal(first, values[0].Value!.Value, 0.5);
        Assert.Equal(last, values[^1].Value!.Value, 0.5);
    }

    [Fact]
    public void A_stream_joined_in_the_middle_loses_only_the_broken_line()
    {
        var splitter = new LineSplitter(LineEnding.Lf, dropFirst: true);
        var lines = new List<string>();
        foreach (var value in Capture("streamed-three-columns"))
        {
            splitter.Take([value], line => lines.Add(Encoding.ASCII.GetString(line)));
        }

        Assert.Equal(40, lines.Count);
        Assert.Equal("44.00,9.900,-702.0", lines[0]);
    }

    [Theory]
    [InlineData("xor-potential", Xor, Quantity.Orp, LineEnding.Lf, 1)]
    [InlineData("crc8-alkali", Crc8, Quantity.Ph, LineEnding.Cr, 2)]
    [InlineData("crc16-three-values", Crc16, Quantity.Temperature, LineEnding.Lf, 4)]
    public void A_damaged_line_with_a_checksum_gives_no_false_value(string file, string settings, Quantity measures, LineEnding ending, int damage)
    {
        // Each checksum is tested with the damage it is made for: bits of one byte, two neighbouring bytes, four bytes anywhere.
        var pattern = SerialBench.Pattern(settings, measures);
        var lines = Lines(Capture(file), ending).Select(line => (Bytes: line, Value: pattern.Parse(line)!.Value.Value)).ToList();
        var random = new Random(20260301);
        var falseGoods = 0;
        for (var trial = 0; trial < 100_000; trial++)
        {
            var (bytes, value) = lines[random.Next(lines.Count)];
            var damaged = (byte[])bytes.Clone();
            var at = random.Next(bytes.Length - 1);
            for (var hit = 0; hit < damage; hit++)
            {
                var place = damage == 4 ? random.Next(bytes.Length) : at + hit;
                damaged[place] ^= (byte)(damage == 4 ? random.Next(256) : 1 << random.Next(8));
            }

            falseGoods += pattern.Parse(damaged) is { Quality: Quality.Good, Value: { } seen } && seen != value ? 1 : 0;
        }

        Assert.InRange(falseGoods, 0, 1);
    }

    [Fact]
    [Trait("Runs", "alone")]
    public void Noise_never_throws_and_is_read_at_20_MB_a_second()
    {
        var noise = new byte[20_000_000];
        new Random(1896).NextBytes(noise);
        var text = Capture("asked-temperature");
        var pattern = SerialBench.Pattern(Plain);
        var splitter = new LineSplitter(LineEnding.Lf, dropFirst: true);
        long lines = 0, values = 0;
        void Count(ReadOnlySpan<byte> line)
        {
            lines++;
            values += pattern.Parse(line) is null ? 0 : 1;
        }

        splitter.Take(text, Count);
        var clock = Stopwatch.StartNew();
        for (var at = 0; at < noise.Length; at += 4000)
        {
            splitter.Take(noise.AsSpan(at, 4000), Count);
        }

        clock.Stop();
        var before = values;
        splitter.Take("\r\nT=45.20C\r\n"u8, Count);
        Assert.Equal(before + 1, values);
        Assert.InRange(lines, 60_000, 90_000);
        Assert.True(splitter.TooLong > 5_000);

        // The machine may be busy with other tests: half the speed is still far above any serial port.
        var speed = noise.Length / clock.Elapsed.TotalSeconds / 1e6;
        TestContext.Current.TestOutputHelper?.WriteLine($"{speed:0} MB/s");
        Assert.InRange(speed, 10, double.MaxValue);
    }

    private static byte[] Capture(string name) =>
        File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "captures", "text-line", "captures", name + ".txt"));

    private static List<byte[]> Lines(byte[] bytes, LineEnding ending)
    {
        var lines = new List<byte[]>();
        new LineSplitter(ending, dropFirst: false).Take(bytes, line => lines.Add(line.ToArray()));
        return lines;
    }
}
