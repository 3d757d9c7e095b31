using System.Security.Cryptography;
using System.Text;

namespace VatWatch.Notifications.Webhook;

/// <summary>Signs the body of a request so that its receiver knows who sent it, when, and that nothing was changed. FORMAT.md has an example.</summary>
internal static class WebhookSignature
{
    /// <summary>Header with the time of the try, seconds since 1970 UTC.</summary>
    public const string TimeHeader = "VatWatch-Time";

    /// <summary>Header with <c>sha256=</c> and the HMAC in lower-case hexadecimal digits.</summary>
    public const string SignatureHeader = "VatWatch-Signature";

    /// <summary>HMAC-SHA256 (RFC 2104) under the secret over the time, a full stop and the body.</summary>
    public static string Of(string secret, long unixSeconds, ReadOnlySpan<byte> body)
    {
        var head = Encoding.ASCII.GetBytes(unixSeconds.ToString() + ".");
        byte[] signed = [.. head, .. body];
        return "sha256=" + Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(secret), signed));
    }
}
