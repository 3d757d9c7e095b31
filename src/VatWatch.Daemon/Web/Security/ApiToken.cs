using System.Buffers.Text;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// A program's key to <c>/api</c> as it may lie on a disk: one line <c>NAME ROLE $sha256$HASH</c>. The token itself is 32 random bytes, so a plain
/// hash keeps it (nobody can try 2^256), and checking it costs nothing at every request. Immutable.
/// </summary>
/// <param name="Name">Which program holds it.</param>
/// <param name="Hash">SHA-256 of the token.</param>
internal sealed record ApiToken(string Name, Role Role, ReadOnlyMemory<byte> Hash)
{
    /// <summary>How every token begins, so that one that leaked into a file can be found by a search.</summary>
    public const string Mark = "vatwatch-";

    private const int SecretBytes = 32;
    private const string HashMark = "$sha256$";

    /// <summary>A new token, which is shown once, and the line that knows it again.</summary>
    public static (string Token, ApiToken Line) Make(string name, Role role)
    {
        var token = Mark + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBytes));
        return (token, new(name, role, HashOf(token)));
    }

    /// <summary>Reads a line that <see cref="ToString"/> wrote.</summary>
    public static bool TryParse(string line, [NotNullWhen(true)] out ApiToken? token)
    {
        token = null;
        var hash = new byte[SHA256.HashSizeInBytes];
        if (line.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) is not [var name, var roleWord, var hashText]
            || EnumWord.Find<Role>(roleWord) is not { } role
            || !hashText.StartsWith(HashMark, StringComparison.Ordinal)
            || !Convert.TryFromBase64String(hashText[HashMark.Length..], hash, out var length)
            || length != hash.Length)
        {
            return false;
        }

        token = new(name, role, hash);
        return true;
    }

    /// <summary>Whether <paramref name="token"/> is the one.</summary>
    public bool Matches(string token) => CryptographicOperations.FixedTimeEquals(HashOf(token), Hash.Span);

    /// <summary>The line for the file.</summary>
    public override string ToString() => $"{Name} {Role.Word()} {HashMark}{Convert.ToBase64String(Hash.Span)}";

    private static byte[] HashOf(string token) => SHA256.HashData(Encoding.UTF8.GetBytes(token));
}
