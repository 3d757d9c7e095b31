namespace VatWatch.Charts.Reports;

/// <summary>Tells how a JPEG file is unpacked, from what stands before its pixels (ITU-T T.81, annex B).</summary>
internal static class JpegRows
{
    /// <summary>
    /// Whether it goes row by row: a sequential file with all of its colours in one scan, as cameras write. A progressive one is held whole, at two bytes of
    /// each colour of each pixel, however small the file; what cannot be told counts as such.
    /// </summary>
    /// <param name="file">The file; stands afterwards where it stood.</param>
    public static bool In(Stream file)
    {
        var start = file.Position;
        var isIn = Read(file);
        file.Position = start;
        return isIn;
    }

    private static bool Read(Stream file)
    {
        var colours = 0;
        for (var marker = Marker(file); ; marker = Marker(file))
        {
            switch (marker)
            {
                case 0xD8: // start of the image, without a length
                    continue;
                case 0xC4 or 0xDB or 0xDD or 0xFE or (>= 0xE0 and <= 0xEF): // tables, comments, whatever programs add
                    file.Seek(Length(file) - 2, SeekOrigin.Current);
                    break;
                case 0xC0 or 0xC1: // a sequential frame: length, bits, height, width, colours
                    file.Position += 7;
                    colours = file.ReadByte();
                    file.Position += 3 * colours;
                    break;
                case 0xDA: // the first scan: length, colours
                    file.Position += 2;
                    return colours > 0 && file.ReadByte() == colours;
                default:
                    return false;
            }
        }
    }

    private static int Marker(Stream file) => file.ReadByte() == 0xFF ? file.ReadByte() : -1;

    /// <summary>Length of a segment, itself included.</summary>
    private static int Length(Stream file) => Math.Max(2, (file.ReadByte() << 8) | file.ReadByte());
}
