using System.Text;
using CsCheck;
using VatWatch.Probes;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.OneWire;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Testing;
using VatWatch.Testing.Fuzz;
using VatWatch.Tests.Probes.Serial;

namespace VatWatch.Tests.Fuzz;

/// <summary>Mutated captures of the hardware notes through everything that takes bytes from a wire.</summary>
public sealed class SerialFuzzTests
{
    private const int Few = 6000;
    private const int MostWords = 400;
    private const int Garbage = 10 * 1024 * 1024;

    private static readonly (LineEnding Ending, LinePattern Pattern)[] Instruments =
    [
        (LineEnding.Lf, SerialBench.Pattern("""{ "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" }""")),
        (LineEnding.Lf, SerialBench.Pattern("""{ "pattern": "^[-0-9.]+,(?<value>[0-9.]+),[-0-9.]+$", "unit": "pH" }""", Quantity.Ph)),
        (LineEnding.Lf, SerialBench.Pattern("""{ "pattern": "^(?<body>ORP (?<value>[-+0-9.]+) mV)\\*(?<sum>[0-9A-F]{2})$", "unit": "mV", "checksum": { "kind": "xor", "group": "sum", "over": "body" } }""", Quantity.Orp)),
        (LineEnding.Cr, SerialBench.Pattern("""{ "pattern": "^PH;(?<value>.*);(?<status>.*);(?<sum>.*)$", "unit": "pH", "ending": "cr", "status": { "OK": "good", "COLD": "suspect", "E1": "fault" }, "checksum": { "kind": "crc-8", "group": "sum" } }""", Quantity.Ph)),
        (LineEnding.CrLf, SerialBench.Pattern("""{ "pattern": "(?<value>.*)", "unit": "°C", "ending": "crlf" }""")),
        (LineEnding.Lf, SerialBench.Pattern("""{ "pattern": "^(?<value>(a+|[0-9.]+)+)\\s*(?=C)(?<status>.*)$", "unit": "°C", "status": { "C": "good" } }""")),
    ];

    [Fact]
    public void Every_mutated_line_gives_a_sound_value_or_one_plain_clause() => Cases.Hold(
        Gen.Select(Mutants.Of(Captures("text-line")).InPieces(), Gen.Int[0, Instruments.Length - 1]),
        Few,
        one =>
        {
            var ((bytes, pieces), which) = one;
            var (ending, pattern) = Instruments[which];
            var splitter = new LineSplitter(ending, dropFirst: bytes.Length % 2 == 0);
            foreach (var piece in Mutants.Cut(bytes, pieces))
            {
                splitter.Take(piece.Span, line =>
                {
                    Assert.InRange(line.Length, 1, LineSplitter.Cap);
                    if (pattern.Parse(line) is { } sample)
                    {
                        CheckSound(sample);
                        Assert.Equal(sample, pattern.Parse(line));
                    }
                });
            }

            Assert.InRange(splitter.Unfinished.Length, 0, LineSplitter.Cap);
        },
        one => Cases.Show(one.Item1.Bytes));

    [Fact]
    public void The_answer_to_a_question_is_a_line_or_a_plain_clause_whatever_comes() => Cases.Hold(
        Mutants.Of(Captures("text-line")).InPieces(),
        Few,
        one =>
        {
            var reply = new LineReply(LineEnding.Lf, _ => false);
            var done = false;
            foreach (var piece in Mutants.Cut(one.Bytes, one.Pieces).TakeWhile(_ => !done))
            {
                done = reply.Take(piece.Span);
            }

            Assert.Equal(done, reply.Line is not null);
            CheckClause(reply.Instead);
        },
        one => Cases.Show(one.Bytes));

    [Fact]
    public void Every_mutated_frame_is_the_answer_with_a_right_checksum_or_none()
    {
        var frames = Frames();
        ModbusSettings[] asked = [new(17, 3, 107, RegisterFormat.FloatAbcd, 1), new(17, 4, 8, RegisterFormat.Int16, 0.1), new(1, 4, 0, RegisterFormat.FloatAbcd, 1), new(17, 3, 1000, RegisterFormat.UInt16, 1)];
        Cases.Hold(
            Gen.Select(Mutants.Of(frames).InPieces(), Gen.Int[0, asked.Length - 1]),
            Few,
            one =>
            {
                var ((bytes, pieces), which) = one;
                var settings = asked[which];
                var reply = new ModbusReply(settings);
                var done = false;
                foreach (var piece in Mutants.Cut(bytes, pieces).TakeWhile(_ => !done))
                {
                    done = reply.Take(piece.Span);
                }

                CheckClause(reply.Wrong);
                Assert.False(done && reply.Wrong is null && reply.Value.IsEmpty && reply.Refusal is null, "an answer that is neither value, refusal nor wrong");
                if (!reply.Value.IsEmpty)
                {
                    byte[] frame = [settings.Address, settings.Function, (byte)reply.Value.Length, .. reply.Value.Span];
                    var sum = Crc.Modbus(frame);
                    Assert.True(bytes.AsSpan().IndexOf((byte[])[.. frame, (byte)(sum & 0xFF), (byte)(sum >> 8)]) >= 0, "a value that no whole frame holds");
                    _ = settings.Format.Decode(reply.Value.Span);
                }
            },
            one => Cases.Show(one.Item1.Bytes));
    }

    [Fact]
    public void Every_mutated_scratchpad_gives_a_sound_value_or_one_plain_clause() => Cases.Hold(
        Mutants.Of([.. Captures("onewire").Select(Encoding.UTF8.GetString)]), Few, text => CheckSound(Scratchpad.Read(text, "28-0000000c0101")), text => text);

    [Fact]
    public void What_is_shown_of_bytes_is_read_back_as_the_same_bytes() => Cases.Hold(
        Gen.Byte.Array[1, 128],
        Few,
        bytes =>
        {
            Assert.True(AskText.TryParse(AskText.Show(bytes), out var ask));
            Assert.Equal(bytes, ask.Bytes.ToArray());
        },
        Cases.Show);

    [Fact]
    public void Every_mutated_question_is_taken_as_written_or_refused() => Cases.Hold(
        Mutants.Of((string[])["T?\\r", "ALL?\\r\\n", "\\x02R\\\\1\\t\\x03", "\\xNN\\"]),
        Few,
        text => Assert.True(!AskText.TryParse(text, out var ask) || (ask.Text == text && ask.Bytes.Length is >= 1 and <= 128)),
        text => text);

    [Theory]
    [InlineData(LineEnding.Lf)]
    [InlineData(LineEnding.Cr)]
    [InlineData(LineEnding.CrLf)]
    public void Ten_megabytes_of_garbage_without_an_end_of_line_take_no_memory(LineEnding ending)
    {
        var piece = new byte[4096];
        new Random(5).NextBytes(piece);
        piece.AsSpan().Replace((byte)'\n', (byte)'x');
        piece.AsSpan().Replace((byte)'\r', (byte)'x');
        var (splitter, reply, modbus) = (new LineSplitter(ending, false), new LineReply(ending, _ => false), new ModbusReply(new(1, 3, 0, RegisterFormat.Int16, 1)));
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var sent = 0; sent < Garbage; sent += piece.Length)
        {
            splitter.Take(piece, _ => Assert.Fail("a line"));
            Assert.False(reply.Take(piece));
        }

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 512 * 1024);
        Assert.Equal(1, splitter.TooLong);
        Assert.Equal("a line of more than 512 bytes", reply.Instead);
        Assert.False(modbus.Take(piece.AsSpan(0, 300)) && modbus.Wrong is null);
    }

    internal static byte[][] Captures(string family) =>
        [.. Directory.GetFiles(SourceTree.At("hardware-notes", family, "captures"), "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllBytes)];

    /// <summary>The frames of the notes, each and one after the other.</summary>
    private static byte[][] Frames()
    {
        byte[][] single =
        [
            .. File.ReadAllLines(SourceTree.At("hardware-notes", "modbus-rtu", "captures", "frames.txt")).Where(line => line.Length > 9 && line[0] != '#')
                .Select(line => Convert.FromHexString(line[9..].Replace(" ", "", StringComparison.Ordinal))),
        ];
        return [.. single, .. single.Zip(single.Skip(1), (first, second) => (byte[])[.. first, .. second])];
    }

    private static void CheckSound(Sample sample)
    {
        Assert.Equal(sample.Quality is Quality.Good or Quality.Suspect, sample.Value is not null);
        Assert.True(sample.Value is null || double.IsFinite(sample.Value.Value));
        Assert.Equal(sample.Quality == Quality.Good, sample.Reason is null);
        CheckClause(sample.Reason);
    }

    private static void CheckClause(string? clause)
    {
        Assert.True(clause is null || clause.Length is > 0 and <= MostWords, $"{clause?.Length} characters");
        Assert.True(clause is null || !clause.Any(char.IsControl), "a control character in what people are told");
    }
}
