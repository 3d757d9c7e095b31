using System.Buffers.Binary;
using SkiaSharp;
using VatWatch.Charts.Reports;

namespace VatWatch.Charts.Tests.Reports;

public sealed class UprightJpegTests
{
    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void Any_of_the_three_kinds_becomes_a_jpeg_no_larger_than_asked(SKEncodedImageFormat kind)
    {
        Assert.True(UprightJpeg.TryMake(new MemoryStream(Pictures.Of(600, 300, kind)), 200, out var picture, out _));

        using var read = SKCodec.Create(new MemoryStream(picture.Bytes));
        Assert.Equal((SKEncodedImageFormat.Jpeg, 200, 100), (read.EncodedFormat, read.Info.Width, read.Info.Height));
    }

    [Fact]
    public void Nothing_but_the_picture_is_left_of_a_file_that_is_a_page_too()
    {
        var page = "<html><script>alert(1)</script></html>"u8.ToArray();
        byte[] file = [.. Pictures.HeldUpright(Pictures.Of(60, 40, SKEncodedImageFormat.Jpeg)), .. page];
        file = [.. file[..2], 0xFF, 0xFE, 0, (byte)(page.Length + 2), .. page, .. file[2..]];

        Assert.True(UprightJpeg.TryMake(new MemoryStream(file), 1000, out var picture, out _));

        Assert.Equal((40, 60), (picture.Width, picture.Height));
        Assert.Equal(-1, picture.Bytes.AsSpan().IndexOf("script"u8));
        Assert.Equal(-1, picture.Bytes.AsSpan().IndexOf("Exif"u8));
    }

    // The header of a PNG (PNG specification, 11.2.2) says any size in 33 bytes.
    [Theory]
    [InlineData(10_000, 10_000, "10,000 by 10,000 pixels; wanted at most 50 million in all")]
    [InlineData(5_000, 5_000, "5,000 by 5,000 pixels; wanted at most 16 million of a PNG")]
    public void Dimensions_are_refused_before_anything_is_unpacked(int width, int height, string sentence)
    {
        byte[] header = [.. "IHDR"u8, 0, 0, 0, 0, 0, 0, 0, 0, 8, 2, 0, 0, 0];
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(8), height);
        var check = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(check, Crc(header));
        byte[] file = [0x89, .. "PNG\r\n"u8, 0x1A, 0x0A, 0, 0, 0, 13, .. header, .. check, 0, 0, 0, 0, .. "IDAT"u8, 0x35, 0xAF, 0x06, 0x1E];

        Assert.False(UprightJpeg.TryMake(new MemoryStream(file), 1000, out _, out var whyNot));
        Assert.Contains(sentence, whyNot, StringComparison.Ordinal);
    }

    // A frame that says any size, and a scan of it, in less than 40 bytes (ITU-T T.81, B.2).
    [Theory]
    [InlineData(0xC0, 3, true)] // sequential, all colours at once
    [InlineData(0xC0, 1, false)] // one colour after the other
    [InlineData(0xC2, 3, false)] // progressive
    public void Only_a_jpeg_that_is_unpacked_row_by_row_may_be_as_large_as_a_cameras(byte frame, byte colours, bool mayBe)
    {
        byte[] file =
        [
            0xFF, 0xD8, 0xFF, 0xFE, 0, 6, 0xFF, 0xC0, 0xFF, 0xDA, 0xFF, frame, 0, 17, 8, 0x1B, 0x58, 0x1B, 0x58, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0,
            0xFF, 0xDA, 0, (byte)(6 + 2 * colours), colours, .. new byte[] { 1, 0, 2, 0, 3, 0 }[..(2 * colours)], 0, 63, 0, 0xFF, 0xD9,
        ];

        Assert.False(UprightJpeg.TryMake(new MemoryStream(file), 1000, out _, out var whyNot));
        Assert.StartsWith(mayBe ? "the picture is damaged" : "the picture has 7,000 by 7,000 pixels; wanted at most 16 million of a PNG, WebP or progressive JPEG", whyNot, StringComparison.Ordinal);
    }

    [Fact]
    public void A_webp_is_held_whole_too()
    {
        byte[] head = [.. "VP8L"u8, 25, 0, 0, 0, 0x2F, .. BitConverter.GetBytes(6_999u | (6_999u << 14)), .. new byte[21]];
        byte[] file = [.. "RIFF"u8, .. BitConverter.GetBytes(head.Length + 4), .. "WEBP"u8, .. head];

        Assert.False(UprightJpeg.TryMake(new MemoryStream(file), 1000, out _, out var whyNot));
        Assert.StartsWith("the picture has 7,000 by 7,000 pixels; wanted at most 16 million", whyNot, StringComparison.Ordinal);
    }

    [Fact]
    public void A_picture_that_is_cut_short_is_refused()
    {
        var whole = Pictures.Of(600, 300, SKEncodedImageFormat.Png);
        Assert.False(UprightJpeg.TryMake(new MemoryStream(whole[..(whole.Length / 2)]), 1000, out _, out var whyNot));
        Assert.StartsWith("the picture is damaged or cut short", whyNot, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<svg onload='x'/>")]
    [InlineData("GIF89a")]
    [InlineData("")]
    public void What_is_none_of_the_three_kinds_is_refused(string text)
    {
        Assert.False(UprightJpeg.TryMake(new MemoryStream(System.Text.Encoding.ASCII.GetBytes(text)), 1000, out _, out var whyNot));
        Assert.Equal("the file is no picture that can be kept; wanted JPEG, PNG or WebP", whyNot);
    }

    // PNG specification, annex D.
    private static uint Crc(byte[] bytes)
    {
        var crc = uint.MaxValue;
        foreach (var one in bytes)
        {
            crc ^= one;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : 0xEDB88320 ^ (crc >> 1);
            }
        }

        return ~crc;
    }
}
