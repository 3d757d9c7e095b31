using System.Buffers.Binary;

namespace VatWatch.Testing;

/// <summary>Plain grey JPEG files of any size, written by hand (ITU-T T.81, annex B): small for their pixels, or padded with comments to any length.</summary>
public static class GreyJpeg
{
    /// <summary>A file; every block of it takes one bit, or two where it is not progressive.</summary>
    /// <param name="leastBytes">Length up to which comments are put in.</param>
    public static byte[] Of(ushort width, ushort height, bool isProgressive = false, int leastBytes = 0)
    {
        using var file = new MemoryStream();
        file.Write([0xFF, 0xD8]);
        while (file.Length < leastBytes)
        {
            Segment(file, 0xFE, new byte[60_000]);
        }

        Segment(file, 0xDB, [0, .. Enumerable.Repeat((byte)16, 64)]);
        var frame = new byte[] { 8, 0, 0, 0, 0, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0 };
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(1), height);
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(3), width);
        Segment(file, isProgressive ? (byte)0xC2 : (byte)0xC0, frame);

        // One code of one bit: no difference to the block before, and the end of the block.
        Segment(file, 0xC4, [0x00, 1, .. new byte[15], 0]);
        Segment(file, 0xC4, [0x10, 1, .. new byte[15], 0]);
        Segment(file, 0xDA, [3, 1, 0, 2, 0, 3, 0, 0, isProgressive ? (byte)0 : (byte)63, 0]);
        var bits = (isProgressive ? 3 : 6) * ((width + 7) / 8) * ((height + 7) / 8);
        file.Write(new byte[bits / 8]);
        file.Write([(byte)(0xFF >> (bits % 8)), 0xFF, 0xD9]);
        return file.ToArray();
    }

    private static void Segment(MemoryStream file, byte marker, byte[] content)
    {
        Span<byte> head = [0xFF, marker, 0, 0];
        BinaryPrimitives.WriteUInt16BigEndian(head[2..], (ushort)(content.Length + 2));
        file.Write(head);
        file.Write(content);
    }
}
