using System.Net;
using MimeKit;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Mail;

/// <summary>The configuration's <c>mail</c> section: which server sends, as whom. The password is read from its file at every connection.</summary>
public sealed record MailOptions
{
    /// <summary>Name or address of the server.</summary>
    public required string Host { get; init; }

    /// <summary>Port, 1 to 65535. Default 587, with <c>smtps</c> 465 (RFC 8314 §7).</summary>
    public required int Port { get; init; }

    /// <summary>How the connection is protected. Default STARTTLS for <c>smtp</c>, TLS for <c>smtps</c>.</summary>
    public required MailSecurity Security { get; init; }

    /// <summary>The sender's address.</summary>
    public required string From { get; init; }

    /// <summary>User name; null for none.</summary>
    public string? User { get; init; }

    /// <summary>File whose first line is the password; null for none.</summary>
    public string? PasswordFile { get; init; }

    /// <summary>PEM file of the authority that signed the server's certificate; null for those the machine trusts.</summary>
    public string? CaFile { get; init; }

    /// <summary>Whether a chart of the last hours is attached. Default true.</summary>
    public bool WithChart { get; init; } = true;

    /// <summary>The server as people know it.</summary>
    public string Address => $"{(Security == MailSecurity.Tls ? "smtps" : "smtp")}://{(Host.Contains(':') ? $"[{Host}]" : Host)}:{Port}";

    /// <summary>What a fault asks for where a mail address is wanted.</summary>
    internal const string WantedAddress = "a mail address such as \"dyer@studio.example\"";

    private const string WantedServer = "\"smtp://host:587\" or \"smtps://host:465\"";

    private static readonly Dictionary<string, MailSecurity> Securities = new(StringComparer.Ordinal)
    {
        ["starttls"] = MailSecurity.StartTls,
        ["tls"] = MailSecurity.Tls,
        ["none"] = MailSecurity.None,
    };

    /// <summary>Reads the section; faults are filed on the node, unknown keys included.</summary>
    public static MailOptions Read(ConfigNode node)
    {
        var (host, port, tls) = ReadServer(node);
        var options = new MailOptions
        {
            Host = host,
            Port = port,
            Security = node.Choice("security", Securities, tls ? MailSecurity.Tls : MailSecurity.StartTls),
            From = ReadAddress(node, "from"),
            User = node.OptionalText("user", "a user name"),
            PasswordFile = SecretFile.Read(node, "passwordFile", "the name of a file whose first line is the password"),
            CaFile = node.OptionalFile("caFile", "the name of a PEM file of certificates"),
            WithChart = node.Flag("chart", true),
        };
        Check(node, options, tls);
        node.Done();
        return options;
    }

    /// <summary>A mail address, or the empty string after filing a fault.</summary>
    internal static string ReadAddress(ConfigNode node, string key)
    {
        var text = node.Text(key, WantedAddress);
        if (text.Length == 0 || (MailboxAddress.TryParse(text, out var address) && address.Address == text && text.Contains('@', StringComparison.Ordinal)))
        {
            return text;
        }

        node.Faults.Add(node.PathOf(key), ConfigNode.Quote(text), WantedAddress);
        return "";
    }

    private static (string Host, int Port, bool Tls) ReadServer(ConfigNode node)
    {
        var text = node.Text("server", WantedServer);
        if (text.Length == 0)
        {
            return ("localhost", PlainPort, false);
        }

        if (text.Contains('@', StringComparison.Ordinal))
        {
            node.Faults.Add(node.PathOf("server"), "an address with a user or password in it", $"{WantedServer}, with the keys user and passwordFile beside it");
            return ("localhost", PlainPort, false);
        }

        if (!Uri.TryCreate(text, UriKind.Absolute, out var uri) || uri.Scheme is not ("smtp" or "smtps") || uri.DnsSafeHost.Length == 0
            || uri.Port == 0 || uri.AbsolutePath is not ("" or "/") || uri.Query.Length > 0 || uri.Fragment.Length > 0)
        {
            node.Faults.Add(node.PathOf("server"), ConfigNode.Quote(text), WantedServer);
            return ("localhost", PlainPort, false);
        }

        var tls = uri.Scheme == "smtps";
        return (uri.DnsSafeHost, uri.Port > 0 ? uri.Port : tls ? TlsPort : PlainPort, tls);
    }

    private static void Check(ConfigNode node, MailOptions options, bool tls)
    {
        if (options.User is null != !node.Has("passwordFile"))
        {
            var (missing, given) = options.User is null ? ("user", "passwordFile") : ("passwordFile", "user");
            node.Faults.Add(node.PathOf(missing), "missing", $"both user and passwordFile, or neither ({given} is given)");
        }

        if (tls && options.Security != MailSecurity.Tls)
        {
            node.Faults.Add(node.PathOf("security"), node.Shown("security"), "\"tls\", or no such key, for an \"smtps\" server");
        }

        if (options is { Security: MailSecurity.None, User: not null } && !IsThisMachine(options.Host))
        {
            node.Faults.Add(node.PathOf("security"), node.Shown("security"), "\"starttls\" or \"tls\": a password is not sent in the clear");
        }

        if (options is { Security: MailSecurity.None, CaFile: not null })
        {
            node.Faults.Add(node.PathOf("caFile"), node.Shown("caFile"), "no such key when security is \"none\"");
        }
    }

    private static bool IsThisMachine(string host) => host == "localhost" || (IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address));

    private const int PlainPort = 587;
    private const int TlsPort = 465;
}

/// <summary>How the connection to a mail server is protected.</summary>
public enum MailSecurity
{
    /// <summary>It begins in the clear and must turn to TLS before anything is said (RFC 3207); usual on port 587.</summary>
    StartTls,

    /// <summary>TLS from the first byte (RFC 8314 §3.3); usual on port 465.</summary>
    Tls,

    /// <summary>None; only for a relay on this machine or in a trusted network, and never with a password beyond this machine.</summary>
    None,
}
