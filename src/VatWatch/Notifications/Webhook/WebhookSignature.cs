using System.Security.Cryptography;
using System.Text;

namespace VatWatch.Notifications.Webhook;

/// <summary>
/// Signs a request so that its receiver knows who sent it, when, where to, and that nothing was changed: HTTP Message Signatures (RFC 9421) with
/// hmac-sha256 (§3.3.3) over the method, the address, the content type and the digest of the body (RFC 9530). FORMAT.md has an example.
/// </summary>
internal static class WebhookSignature
{
    /// <summary>Header with the digest of the body.</summary>
    public const string DigestHeader = "Content-Digest";

    /// <summary>Header that says what is signed, when and with whose key.</summary>
    public const string InputHeader = "Signature-Input";

    public const string SignatureHeader = "Signature";

    /// <summary>What our signature is called in both headers.</summary>
    private const string Label = "vatwatch";

    private const string Components = "(\"@method\" \"@target-uri\" \"content-type\" \"content-digest\")";

    /// <summary>The three headers of a POST.</summary>
    /// <param name="secret">The secret; its UTF-8 bytes are the key.</param>
    /// <param name="keyId">Whose key it is: the contact's id, which needs no escape in a structured field.</param>
    /// <param name="created">When, seconds since 1970 UTC.</param>
    public static (string Digest, string Input, string Signature) Of(
        string secret, string keyId, long created, Uri target, string contentType, ReadOnlySpan<byte> body)
    {
        var digest = $"sha-256=:{Convert.ToBase64String(SHA256.HashData(body))}:";
        var parameters = $"{Components};created={created};keyid=\"{keyId}\";alg=\"hmac-sha256\"";
        var signed =
            $"""
            "@method": POST
            "@target-uri": {target.AbsoluteUri}
            "content-type": {contentType}
            "content-digest": {digest}
            "@signature-params": {parameters}
            """.ReplaceLineEndings("\n");
        var signature = HMACSHA256.HashData(Encoding.UTF8.GetBytes(secret), Encoding.ASCII.GetBytes(signed));
        return (digest, $"{Label}={parameters}", $"{Label}=:{Convert.ToBase64String(signature)}:");
    }
}
