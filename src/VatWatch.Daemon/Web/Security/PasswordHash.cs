using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// A password as it may lie on a disk: PBKDF2 with HMAC-SHA-512 (RFC 8018), a random salt, one line
/// <c>$pbkdf2-sha512$i=ITERATIONS$SALT$HASH</c> with both in base64. Immutable.
/// </summary>
internal sealed class PasswordHash
{
    /// <summary>Shortest password taken: the only secret there is, on a home network.</summary>
    public const int ShortestPassword = 10;

    /// <summary>Longest password taken; a longer one would only be work for the hash.</summary>
    public const int LongestPassword = 200;

    /// <summary>Rounds for a new hash: what the OWASP password storage cheat sheet asks of PBKDF2-HMAC-SHA512 (from memory).</summary>
    public const int Iterations = 210_000;

    /// <summary>Fewer are not read from a file.</summary>
    public const int LeastIterations = 10_000;

    private const int MostIterations = 5_000_000;
    private const int SaltBytes = 16;
    private const int HashBytes = 32;
    private readonly int _iterations;
    private readonly byte[] _salt;
    private readonly byte[] _hash;

    private PasswordHash(int iterations, byte[] salt, byte[] hash)
    {
        _iterations = iterations;
        _salt = salt;
        _hash = hash;
    }

    /// <summary>Changes when the password does; says nothing about it.</summary>
    public string Fingerprint => Convert.ToHexString(SHA256.HashData(Encoding.ASCII.GetBytes(ToString())), 0, 8);

    /// <summary>Hashes a new password. Fewer rounds than usual are for a test whose subject is another.</summary>
    /// <exception cref="ArgumentException">Shorter than <see cref="ShortestPassword"/> or longer than <see cref="LongestPassword"/>.</exception>
    public static PasswordHash Of(string password, int iterations = Iterations)
    {
        if (password.Length is < ShortestPassword or > LongestPassword)
        {
            throw new ArgumentException($"The password has {password.Length} characters; wanted {ShortestPassword} to {LongestPassword}.", nameof(password));
        }

        var salt = RandomNumberGenerator.GetBytes(SaltBytes);
        return new(iterations, salt, Derive(password, salt, iterations));
    }

    /// <summary>Reads a line that <see cref="ToString"/> wrote; spaces and line ends around it are ignored.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out PasswordHash? hash)
    {
        hash = null;
        if (text.Trim().Split('$') is not ["", "pbkdf2-sha512", ['i', '=', .. var rounds], var saltText, var hashText]
            || !int.TryParse(rounds, NumberStyles.None, CultureInfo.InvariantCulture, out var iterations)
            || iterations is < LeastIterations or > MostIterations)
        {
            return false;
        }

        var salt = new byte[SaltBytes];
        var key = new byte[HashBytes];
        if (!Convert.TryFromBase64String(saltText, salt, out var saltLength) || saltLength != SaltBytes
            || !Convert.TryFromBase64String(hashText, key, out var keyLength) || keyLength != HashBytes)
        {
            return false;
        }

        hash = new(iterations, salt, key);
        return true;
    }

    /// <summary>Whether <paramref name="password"/> is the one; takes the same time either way (a good part of a second on a small board).</summary>
    public bool Matches(string password) =>
        password.Length <= LongestPassword && CryptographicOperations.FixedTimeEquals(Derive(password, _salt, _iterations), _hash);

    /// <summary>The line for the file.</summary>
    public override string ToString() =>
        $"$pbkdf2-sha512$i={_iterations}${Convert.ToBase64String(_salt)}${Convert.ToBase64String(_hash)}";

    private static byte[] Derive(string password, byte[] salt, int iterations) =>
        Rfc2898DeriveBytes.Pbkdf2(password, salt, iterations, HashAlgorithmName.SHA512, HashBytes);
}

/// <summary>The passwords of a site. Immutable.</summary>
/// <param name="Operator">Of those who may change things.</param>
/// <param name="Viewer">Of those who may only look; null when there is none.</param>
internal sealed record Passwords(PasswordHash Operator, PasswordHash? Viewer = null)
{
    /// <summary>Whose password it is; slow on purpose. One that both share is the operator's.</summary>
    public Role? RoleOf(string password) =>
        Operator.Matches(password) ? Role.Operator : Viewer?.Matches(password) == true ? Role.Viewer : null;

    /// <summary>Whose session a fingerprint belongs to; null once the password has changed.</summary>
    public Role? RoleOfFingerprint(string? fingerprint) =>
        fingerprint is null ? null : fingerprint == Operator.Fingerprint ? Role.Operator : fingerprint == Viewer?.Fingerprint ? Role.Viewer : null;

    /// <summary>The fingerprint that a new session carries.</summary>
    public string Fingerprint(Role role) => role == Role.Viewer && Viewer is not null ? Viewer.Fingerprint : Operator.Fingerprint;
}
