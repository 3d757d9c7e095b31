using VatWatch.Probes.Modbus;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.HardwareNotes;

/// <summary>The frames of hardware-notes/modbus-rtu: published ones, and those of the configuration beside them.</summary>
public sealed class ModbusFrameTests
{
    private static readonly IReadOnlyList<string[]> Rows = CapturedBytes.Rows("modbus-rtu", "frames.txt");

    [Fact]
    public void Every_frame_ends_in_its_checksum() => Assert.All(Rows, row =>
    {
        var frame = CapturedBytes.Bytes(row[1]);
        Assert.Equal(Crc.Modbus(frame.AsSpan(0, frame.Length - 2)), frame[^2] | (frame[^1] << 8));
    });

    // Register 8 of address 17 holds 10 (the published pair); 42417AE1 is 48.37 by IEEE 754.
    [Theory]
    [InlineData(17, 4, 8, "UInt16", 10)]
    [InlineData(1, 4, 0, "FloatAbcd", 48.37)]
    public void The_request_is_in_the_capture_and_its_answer_is_read(byte address, byte function, ushort register, string format, double value)
    {
        var settings = new ModbusSettings(address, function, register, Enum.Parse<RegisterFormat>(format), 1);
        var reply = new ModbusReply(settings);
        Assert.True(reply.Take(AnswerTo(settings.Request())));
        Assert.Null(reply.Refusal);
        Assert.Equal(value, settings.Format.Decode(reply.Value.Span), 1e-5);
    }

    [Fact]
    public void The_refusal_is_read_with_its_code()
    {
        var settings = new ModbusSettings(17, 3, 1000, RegisterFormat.Int16, 1);
        var reply = new ModbusReply(settings);
        Assert.True(reply.Take(AnswerTo(settings.Request())));
        Assert.Equal((byte)2, reply.Refusal);
    }

    private static byte[] AnswerTo(byte[] request)
    {
        var at = Rows.Index().Single(row => row.Item[0] == "request" && CapturedBytes.Bytes(row.Item[1]).AsSpan().SequenceEqual(request)).Index;
        Assert.Equal("reply", Rows[at + 1][0]);
        return CapturedBytes.Bytes(Rows[at + 1][1]);
    }
}
