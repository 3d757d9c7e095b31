using CsCheck;
using VatWatch.Notifications.Mqtt;
using VatWatch.Testing.Fuzz;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>Packets up to the bound pass whole, in whatever pieces they come; one beyond it ends the stream at its length.</summary>
public sealed class PacketBoundTests
{
    private const int Most = 200_000;

    [Theory]
    [InlineData(new byte[] { 0x10, 0xFF, 0xFF, 0xFF, 0x7F }, false)]
    [InlineData(new byte[] { 0x10, 0xFF, 0xFF, 0xFF, 0xFF, 0x01 }, false)]
    [InlineData(new byte[] { 0x30, 0xC1, 0x9A, 0x0C }, false)]
    [InlineData(new byte[] { 0x30, 0xC0, 0x9A, 0x0C }, true)]
    [InlineData(new byte[] { 0xC0, 0x00, 0xC0, 0x00, 0x30, 0x01, 0xFF, 0xC0, 0x00 }, true)]
    public async Task An_announced_length_beyond_the_bound_ends_the_stream(byte[] sent, bool passes)
    {
        await using var bound = new PacketBound(new MemoryStream(sent), Most);
        var read = bound.ReadExactlyAsync(new byte[sent.Length], TestContext.Current.CancellationToken).AsTask();
        if (passes)
        {
            await read;
        }
        else
        {
            Assert.Contains($"at most {Most} are taken", (await Assert.ThrowsAsync<IOException>(() => read)).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Sound_packets_pass_unchanged_in_any_pieces() => Cases.Hold(
        Gen.Select(Gen.Int[0, 400].Array[1, 20], Gen.Int[1, 97].Array[1, 6]),
        300,
        one =>
        {
            byte[] sent = [.. one.Item1.SelectMany(Packet)];
            using var bound = new PacketBound(new MemoryStream(sent), Most);
            var taken = new List<byte>();
            var buffer = new byte[100];
            for (int turn = 0, count = 1; count > 0; turn++)
            {
                count = bound.Read(buffer, 0, one.Item2[turn % one.Item2.Length]);
                taken.AddRange(buffer.AsSpan(0, count));
            }

            Assert.Equal(sent, taken);
        },
        one => string.Join(' ', one.Item1));

    private static IEnumerable<byte> Packet(int length)
    {
        yield return 0x30;
        yield return (byte)(length < 128 ? length : length % 128 | 0x80);
        if (length >= 128)
        {
            yield return (byte)(length / 128);
        }

        foreach (var value in Enumerable.Repeat((byte)0xFF, length))
        {
            yield return value;
        }
    }
}
