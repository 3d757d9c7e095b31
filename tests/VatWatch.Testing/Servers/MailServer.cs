using System.Text.Json;

namespace VatWatch.Testing.Servers;

/// <summary>A real mail server in another process (<c>mail_server.py</c>, Debian's python3-aiosmtpd).</summary>
internal sealed class MailServer : IAsyncDisposable
{
    private readonly PythonServer _server;

    private MailServer(PythonServer server) => _server = server;

    /// <summary>Its port.</summary>
    public int Port => _server.Port;

    /// <summary>Mails taken, in order.</summary>
    public IReadOnlyList<TakenMail> Mails => [.. _server.Taken.Select(TakenMail.Parse)];

    /// <summary>Starts it; <paramref name="security"/> is none, starttls or tls.</summary>
    public static async Task<MailServer> StartAsync(
        string security = "none", StudioCertificates? certificates = null, string? user = null, string? password = null, int? port = null) => new(await PythonServer.StartAsync(
        "mail_server.py", port, security, certificates?.ServerCertificate ?? "-", certificates?.ServerKey ?? "-", user ?? "-", password ?? "-"));

    /// <summary>Sends a command of the script's head.</summary>
    public Task TellAsync(string command) => _server.TellAsync(command);

    /// <summary>Waits until so many mails were taken, and gives them.</summary>
    public async Task<IReadOnlyList<TakenMail>> WaitForAsync(int count, TimeSpan? limit = null)
    {
        await Eventually.TrueAsync(() => _server.Taken.Count >= count, $"{count} mails are taken; {_server.Taken.Count} were", limit);
        return Mails;
    }

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    /// <summary>One mail as the server had it.</summary>
    /// <param name="To">Recipients of the envelope.</param>
    /// <param name="Tls">Whether the connection was encrypted.</param>
    /// <param name="User">Who had given the password; null for nobody.</param>
    /// <param name="Raw">The message.</param>
    internal sealed record TakenMail(IReadOnlyList<string> To, bool Tls, string? User, byte[] Raw)
    {
        internal static TakenMail Parse(string line)
        {
            using var json = JsonDocument.Parse(line);
            var root = json.RootElement;
            return new(
                [.. root.GetProperty("to").EnumerateArray().Select(one => one.GetString()!)],
                root.GetProperty("tls").GetBoolean(),
                root.GetProperty("user").GetString(),
                root.GetProperty("raw").GetBytesFromBase64());
        }
    }
}
