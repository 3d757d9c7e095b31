using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Tests.Notifications.Mqtt;

public sealed class PacketLengthTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(1000)]
    public void Lengths_are_seen_however_the_stream_is_cut(int at)
    {
        byte[] stream = [0x20, 3, 0, 0, 0, 0xD0, 0, 0x30, 0xC8, 0x01, .. new byte[200], 0x30, 0xFF, 0xFF, 0xFF, 0x7F, 9, 9];
        var length = new PacketLength();
        var seen = stream.Chunk(at).Select(part => length.Pass(part)).ToList();
        Assert.Equal(268_435_455, seen.Max());
        Assert.All(seen.Take(200 / at), announced => Assert.InRange(announced, 0, 200));
    }

    [Fact]
    public void A_length_of_five_bytes_is_none() => Assert.Equal(int.MaxValue, new PacketLength().Pass([0x30, 0x80, 0x80, 0x80, 0x80, 0x01]));
}
