using MailKit;

namespace VatWatch.Notifications.Mail;

/// <summary>
/// Ends a connection whose server goes on talking: the library keeps a whole answer in memory, and within the time of one step that is gigabytes.
/// It sees what passes as a log would, after TLS. Not thread safe.
/// </summary>
internal sealed class AnswerBound : IProtocolLogger
{
    /// <summary>Bytes after something we said. The longest answer, that to EHLO, has a few lines of at most 512 bytes (RFC 5321 §4.5.3.1.5).</summary>
    public const int Most = 64 * 1024;

    private int _said;

    public IAuthenticationSecretDetector? AuthenticationSecretDetector { get; set; }

    public void LogConnect(Uri uri) => _said = 0;

    public void LogClient(byte[] buffer, int offset, int count) => _said = 0;

    public void LogServer(byte[] buffer, int offset, int count)
    {
        if ((_said += count) > Most)
        {
            throw new IOException($"its answer goes on after {Most / 1024} KB");
        }
    }

    public void Dispose()
    {
    }
}
