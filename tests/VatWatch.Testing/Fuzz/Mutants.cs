using CsCheck;

namespace VatWatch.Testing.Fuzz;

/// <summary>Random cases that begin as something real: bytes or text with parts changed, lost, doubled, swapped and cut.</summary>
internal static class Mutants
{
    /// <summary>Bytes and words that parsers stumble over.</summary>
    private static readonly byte[][] Stumbling =
    [
        [0], [0xFF], [0x80], [0x1B], "\r"u8.ToArray(), "\n"u8.ToArray(), "\r\n"u8.ToArray(), ","u8.ToArray(), "\""u8.ToArray(), "'"u8.ToArray(), "\\"u8.ToArray(),
        "-"u8.ToArray(), "."u8.ToArray(), "e9"u8.ToArray(), "1e999"u8.ToArray(), "NaN"u8.ToArray(), "Infinity"u8.ToArray(), "99999999999999999999"u8.ToArray(),
        "\\ud800"u8.ToArray(), "\\u0000"u8.ToArray(), "{"u8.ToArray(), "}"u8.ToArray(), "["u8.ToArray(), "]"u8.ToArray(), "null"u8.ToArray(), "=cmd"u8.ToArray(),
        "\u202E"u8.ToArray(), "\uFEFF"u8.ToArray(), "../../"u8.ToArray(), "%2e%2e%2f"u8.ToArray(), "°"u8.ToArray(), "٣"u8.ToArray(), [.. Enumerable.Repeat((byte)'9', 600)],
        [.. Enumerable.Repeat((byte)'[', 200)], [.. Enumerable.Repeat((byte)'"', 3)],
    ];

    private static readonly Gen<(int Way, int At, int Length, byte[] Noise)> Step =
        Gen.Select(Gen.Int[0, 7], Gen.Int[0, int.MaxValue], Gen.Int[0, 40], Gen.Byte.Array[0, 24], (way, at, length, noise) => (way, at, length, noise));

    /// <summary>Mutants of <paramref name="real"/>; some come unchanged.</summary>
    public static Gen<byte[]> Of(IReadOnlyList<byte[]> real) => Gen.Select(
        Gen.Int[0, real.Count - 1],
        Step.Array[0, 6],
        (which, steps) => steps.Aggregate(real[which], (bytes, step) => Change(bytes, step, real)));

    /// <summary>Mutants of texts; what is no text any more is made one with replacement characters.</summary>
    public static Gen<string> Of(IReadOnlyList<string> real) =>
        Of([.. real.Select(text => System.Text.Encoding.UTF8.GetBytes(text))]).Select(bytes => System.Text.Encoding.UTF8.GetString(bytes));

    /// <summary>The bytes in pieces as a port may give them.</summary>
    public static Gen<(byte[] Bytes, int[] Pieces)> InPieces(this Gen<byte[]> bytes) => Gen.Select(bytes, Gen.Int[1, 97].Array[1, 8], (all, pieces) => (all, pieces));

    /// <summary>Hands out the pieces, in turn as long as <paramref name="pieces"/> says.</summary>
    public static IEnumerable<ReadOnlyMemory<byte>> Cut(byte[] bytes, int[] pieces)
    {
        for (int at = 0, turn = 0; at < bytes.Length; turn++)
        {
            var length = Math.Min(pieces[turn % pieces.Length], bytes.Length - at);
            yield return bytes.AsMemory(at, length);
            at += length;
        }
    }

    private static byte[] Change(byte[] bytes, (int Way, int At, int Length, byte[] Noise) step, IReadOnlyList<byte[]> real)
    {
        var at = bytes.Length == 0 ? 0 : step.At % bytes.Length;
        var end = Math.Min(bytes.Length, at + step.Length);
        switch (step.Way)
        {
            case 0: // one bit
                byte[] flipped = [.. bytes];
                if (flipped.Length > 0)
                {
                    flipped[at] ^= (byte)(1 << (step.Length % 8));
                }

                return flipped;
            case 1: // noise in between
                return [.. bytes[..at], .. step.Noise, .. bytes[at..]];
            case 2: // a stretch lost
                return [.. bytes[..at], .. bytes[end..]];
            case 3: // a stretch twice
                return [.. bytes[..end], .. bytes[at..]];
            case 4: // something nasty in place of a stretch
                return [.. bytes[..at], .. Stumbling[step.Length % Stumbling.Length], .. bytes[(step.Length % 2 == 0 ? at : Math.Min(bytes.Length, at + 3))..]];
            case 5: // the head of this and the tail of another
                var other = real[step.Length % real.Count];
                return [.. bytes[..at], .. other[(other.Length == 0 ? 0 : step.At % other.Length)..]];
            case 6: // cut short
                return bytes[..at];
            default: // noise in place of a stretch
                return [.. bytes[..at], .. step.Noise.Take(bytes.Length - at), .. bytes[Math.Min(bytes.Length, at + step.Noise.Length)..]];
        }
    }
}
