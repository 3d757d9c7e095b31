using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Sessions.Entries;

/// <summary>A picture as it was sent: JPEG, PNG or WebP, told by its first bytes and not by what the sender says.</summary>
public sealed class Photo
{
    /// <summary>Largest picture, bytes: what a phone's camera makes at full size.</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    private Photo(string mediaType, byte[] bytes)
    {
        MediaType = mediaType;
        Bytes = bytes;
    }

    /// <summary>image/jpeg, image/png or image/webp.</summary>
    public string MediaType { get; }

    /// <summary>The picture.</summary>
    public byte[] Bytes { get; }

    /// <summary>Takes a picture.</summary>
    /// <returns>False with the reason as a clause.</returns>
    public static bool TryTake(byte[] bytes, [NotNullWhen(true)] out Photo? photo, [NotNullWhen(false)] out string? whyNot)
    {
        photo = null;
        whyNot = bytes.Length > MostBytes
            ? $"the picture has {bytes.Length / 1_000_000.0:0.0} MB; wanted at most {MostBytes / 1_000_000.0:0.0} MB"
            : null;
        if (whyNot is null && TypeOf(bytes) is { } type)
        {
            photo = new Photo(type, bytes);
            return true;
        }

        whyNot ??= "the file is no picture that can be kept; wanted JPEG, PNG or WebP";
        return false;
    }

    /// <summary>ISO/IEC 10918-1 (SOI and the next marker), PNG specification §5.2, RIFF header of WebP (RFC 9649 §2.4).</summary>
    private static string? TypeOf(ReadOnlySpan<byte> bytes) =>
        bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? "image/jpeg"
        : bytes.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]) ? "image/png"
        : bytes.Length >= 12 && bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8) ? "image/webp"
        : null;
}
