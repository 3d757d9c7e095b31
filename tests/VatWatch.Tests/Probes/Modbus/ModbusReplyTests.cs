using VatWatch.Probes.Modbus;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>Frames as published (Modbus application protocol V1.1b3 and serial line guide V1.02, in the measurement reference) and damaged by hand.</summary>
public sealed class ModbusReplyTests
{
    private static readonly ModbusSettings Input8 = new(0x11, 4, 8, RegisterFormat.UInt16, 1);

    [Theory]
    [InlineData("11 03 00 6B 00 03", 0x8776)]
    [InlineData("11 03 06 AE 41 56 52 43 40", 0xAD49)]
    [InlineData("11 04 00 08 00 01", 0x98B2)]
    [InlineData("11 04 02 00 0A", 0xF4F8)]
    [InlineData("01 03 00 00 00 0A", 0xCDC5)]
    [InlineData("02 07", 0x1241)]
    [InlineData("11 83 02", 0x34C1)]
    [InlineData("31 32 33 34 35 36 37 38 39", 0x4B37)]
    public void Checksums_are_those_of_the_published_frames(string bytes, int sum) => Assert.Equal(sum, Crc.Modbus(Bytes(bytes)));

    [Fact]
    public void The_request_is_the_published_one() => Assert.Equal(Bytes("11 04 00 08 00 01 B2 98"), Input8.Request());

    [Fact]
    public void The_published_answer_is_read_however_it_is_split()
    {
        foreach (var size in new[] { 1, 2, 3, 7 })
        {
            var reply = new ModbusReply(Input8);
            var parts = Bytes("11 04 02 00 0A F8 F4").Chunk(size).ToList();
            Assert.All(parts[..^1], part => Assert.False(reply.Take(part)));
            Assert.True(reply.Take(parts[^1]));
            Assert.Equal([0, 10], reply.Value.ToArray());
            Assert.Null(reply.Wrong);
        }
    }

    [Theory]
    [InlineData(RegisterFormat.FloatAbcd, "42 41 7A E1")]
    [InlineData(RegisterFormat.FloatCdab, "7A E1 42 41")]
    [InlineData(RegisterFormat.FloatBadc, "41 42 E1 7A")]
    [InlineData(RegisterFormat.FloatDcba, "E1 7A 41 42")]
    internal void A_float_is_read_in_each_order(RegisterFormat format, string bytes) =>
        Assert.Equal(48.37, format.Decode(Bytes(bytes)), 1e-5);

    [Theory]
    [InlineData(RegisterFormat.Int16, "FF FE", -2)]
    [InlineData(RegisterFormat.UInt16, "FF FE", 65534)]
    [InlineData(RegisterFormat.Int32, "FF FF FF FE", -2)]
    [InlineData(RegisterFormat.UInt32, "FF FF FF FE", 4294967294)]
    internal void An_integer_is_read_with_and_without_sign(RegisterFormat format, string bytes, double value) =>
        Assert.Equal(value, format.Decode(Bytes(bytes)));

    [Fact]
    public void A_published_float_answer_is_read()
    {
        var reply = new ModbusReply(new ModbusSettings(1, 4, 0, RegisterFormat.FloatAbcd, 1));
        Assert.True(reply.Take(Bytes("01 04 04 42 41 7A E1 5C C0")));
        Assert.Equal(48.37, RegisterFormat.FloatAbcd.Decode(reply.Value.Span), 1e-5);
    }

    [Fact]
    public void A_refusal_carries_its_code()
    {
        var reply = new ModbusReply(new ModbusSettings(0x11, 3, 8, RegisterFormat.UInt16, 1));
        Assert.True(reply.Take(Bytes("11 83 02 C1 34")));
        Assert.Equal((byte)2, reply.Refusal);
    }

    [Theory]
    [InlineData("the echo of an adapter with two wires", "11 04 00 08 00 01 B2 98")]
    [InlineData("an answer of device 1", "01 04 04 42 41 7A E1 5C C0")]
    [InlineData("a glitch while the line turns round", "00 FF")]
    public void What_is_not_the_answer_is_passed_over(string what, string before)
    {
        var reply = new ModbusReply(Input8);
        Assert.False(reply.Take(Bytes(before)), what);
        Assert.True(reply.Take(Bytes("11 04 02 00 0A F8 F4")), what);
        Assert.Equal([0, 10], reply.Value.ToArray());
        Assert.Null(reply.Wrong);
    }

    [Theory]
    [InlineData("11 04 02 00 0A F8 F5", "a frame with a wrong checksum (110402000AF8F5)")]
    [InlineData("11 04 02 00 0B F8 F4", "a frame with a wrong checksum (110402000BF8F4)")]
    [InlineData("11 84 02 C1 34", "a frame with a wrong checksum (118402C134)")]
    public void A_whole_but_damaged_answer_ends_the_wait(string bytes, string wrong)
    {
        var reply = new ModbusReply(Input8);
        Assert.True(reply.Take(Bytes(bytes)));
        Assert.Equal(wrong, reply.Wrong);
        Assert.True(reply.Value.IsEmpty);
    }

    [Fact]
    public void Random_bytes_never_throw_and_never_make_a_value()
    {
        var random = new Random(40001);
        var buffer = new byte[300];
        var values = 0;
        for (var trial = 0; trial < 100_000; trial++)
        {
            var reply = new ModbusReply(Input8);
            var bytes = buffer.AsSpan(0, random.Next(1, 40));
            random.NextBytes(bytes);
            bytes[0] = 0x11;
            values += reply.Take(bytes) && reply.Wrong is null ? 1 : 0;
        }

        Assert.InRange(values, 0, 1);
        Assert.False(new ModbusReply(Input8).Take(new byte[300]));
    }

    private static byte[] Bytes(string hexadecimal) => Convert.FromHexString(hexadecimal.Replace(" ", ""));
}
