using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace VatWatch.SystemTests.Security;

/// <summary>Secrets that a test has planted, and a search for them in whatever a program wrote: as they are, in hexadecimal digits, in base64 wherever they begin, and as an address carries them.</summary>
internal sealed class WrittenSecrets
{
    private readonly Dictionary<string, List<byte[]>> _forms = [];

    /// <summary>Plants one; <paramref name="what"/> names it in what is found.</summary>
    public string Plant(string what, string? secret = null)
    {
        secret ??= $"{what}-{Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(9))}/+?";
        _forms[what] = [.. Forms(secret).Distinct().Select(Encoding.UTF8.GetBytes)];
        return secret;
    }

    /// <summary>Which secrets, in what form, are in <paramref name="bytes"/>.</summary>
    public IReadOnlyList<string> In(ReadOnlySpan<byte> bytes)
    {
        var found = new List<string>();
        foreach (var (what, forms) in _forms)
        {
            foreach (var form in forms)
            {
                if (bytes.IndexOf(form) >= 0 || bytes.IndexOf(Encoding.Unicode.GetBytes(Encoding.UTF8.GetString(form))) >= 0)
                {
                    found.Add($"{what} as {Encoding.UTF8.GetString(form)}");
                }
            }
        }

        return found;
    }

    /// <summary>The same for text.</summary>
    public IReadOnlyList<string> In(string text) => In(Encoding.UTF8.GetBytes(text));

    /// <summary>A password's line for the configuration's files, with few rounds: PBKDF2 with HMAC-SHA-512.</summary>
    public static string HashOf(string password)
    {
        var salt = RandomNumberGenerator.GetBytes(16);
        return $"$pbkdf2-sha512$i=10000${Convert.ToBase64String(salt)}${Convert.ToBase64String(Rfc2898DeriveBytes.Pbkdf2(password, salt, 10_000, HashAlgorithmName.SHA512, 32))}";
    }

    /// <summary>A program's token and its line.</summary>
    public static (string Token, string Line) Token(string name)
    {
        var token = "vatwatch-" + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));
        return (token, $"{name} viewer $sha256${Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(token)))}");
    }

    private static IEnumerable<string> Forms(string secret)
    {
        var bytes = Encoding.UTF8.GetBytes(secret);
        yield return secret;
        yield return Uri.EscapeDataString(secret);
        yield return System.Text.Json.JsonEncodedText.Encode(secret).ToString();
        yield return System.Net.WebUtility.HtmlEncode(secret);
        yield return Convert.ToHexString(bytes);
        yield return Convert.ToHexStringLower(bytes);

        // In base64 three bytes make four letters, so what stands before it moves it; the letters at the ends hold neighbours too and are left out.
        for (var before = 0; before < 3; before++)
        {
            var letters = Convert.ToBase64String([.. new byte[before], .. bytes]).TrimEnd('=');
            var inner = letters[(before == 0 ? 0 : before + 1)..^(letters.Length % 4 == 0 ? 0 : 1)];
            yield return inner;
            yield return inner.Replace('+', '-').Replace('/', '_');
        }
    }
}
