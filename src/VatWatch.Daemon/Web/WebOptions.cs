using System.Globalization;
using System.Net;
using System.Security.Cryptography.X509Certificates;
using VatWatch.Daemon.Web.Security;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web;

/// <summary>Where the pages are served, to whom and how they are protected: the configuration's <c>web</c> object.</summary>
internal sealed record WebOptions
{
    /// <summary>Address when the configuration names none: this computer only.</summary>
    public const string DefaultListen = "http://127.0.0.1:8080";

    private const string WantedListen =
        "an address such as \"http://127.0.0.1:8080\" or \"https://0.0.0.0:8443\": http or https, a number address, \"localhost\" or \"*\", and a port from 1 to 65535";

    /// <summary>Address and port; port 0 (tests only, not from a file) takes a free one. Default 127.0.0.1:8080.</summary>
    public IPEndPoint Listen { get; init; } = new(IPAddress.Loopback, 8080);

    /// <summary>Passwords; null when none is asked for, which only a loopback address may do.</summary>
    public Passwords? Passwords { get; init; }

    /// <summary>Keys of programs; only beside passwords.</summary>
    public IReadOnlyList<ApiToken> Tokens { get; init; } = [];

    /// <summary>Certificate and key for https; null for http.</summary>
    public X509Certificate2? Certificate { get; init; }

    /// <summary>What stands between <see cref="Certificate"/> and its authority; empty for a certificate of one's own making.</summary>
    public X509Certificate2Collection CertificateChain { get; init; } = [];

    /// <summary>How long a connection may say nothing, before its first request and between two. Not configured; tests make it short.</summary>
    public TimeSpan IdleConnection { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>How long a body may come slower than the least pace. Not configured; tests make it short.</summary>
    public TimeSpan SlowBody { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>A name beside the address by which browsers reach this daemon, for example behind a reverse proxy; messages then lead to their alarm's page. Null for none.</summary>
    public string? HostName { get; init; }

    /// <summary>Address of the reverse proxy that is believed when it says from where a request came and whether by https; null when none is.</summary>
    public IPAddress? Proxy { get; init; }

    /// <summary>Whether a stranger is asked for something.</summary>
    public bool IsGuarded => Passwords is not null;

    /// <summary>Whether only programs of this computer can connect.</summary>
    public bool IsLoopback => IPAddress.IsLoopback(Listen.Address);

    /// <summary>For example "http://127.0.0.1:8080".</summary>
    public string Url => $"{(Certificate is null ? "http" : "https")}://{Listen}";

    /// <summary>
    /// Where messages send people: <see cref="HostName"/> with the port, or as a reverse proxy shows it while only this computer can connect; null
    /// without a host name.
    /// </summary>
    public Uri? PagesRoot => HostName is null ? null
        : new UriBuilder(IsLoopback || Certificate is not null ? "https" : "http", HostName, IsLoopback ? -1 : Listen.Port).Uri;

    /// <summary>Reads the <c>web</c> object; null reads as the defaults. What is wrong is filed in the node's faults.</summary>
    /// <param name="node">The object, or null when the configuration has none.</param>
    /// <param name="folder">Folder that file names without a full path start from.</param>
    public static WebOptions Read(ConfigNode? node, string folder = "")
    {
        if (node is null)
        {
            return new();
        }

        var listen = node.OptionalText("listen", WantedListen, DefaultListen) ?? "";
        var endPoint = ParseListen(listen, out var isHttps);
        if (listen.Length > 0 && endPoint is null)
        {
            node.Faults.Add(node.PathOf("listen"), ConfigNode.Quote(listen), WantedListen);
        }

        var certificates = new WebCertificateFiles(node, folder);
        var (certificate, chain) = certificates.Server(endPoint is not null && isHttps);
        var secrets = new WebSecretFiles(node, folder);
        var options = new WebOptions
        {
            Listen = endPoint ?? new(IPAddress.Loopback, 8080),
            Passwords = secrets.Passwords(),
            Tokens = secrets.Tokens(),
            Certificate = certificate,
            CertificateChain = chain,
            HostName = ReadHostName(node),
            Proxy = ReadProxy(node),
        };
        RequirePassword(node, options);
        node.Removed("clientCaFile", "\"passwordFile\", or a reverse proxy that asks for client certificates, named by \"proxy\"");
        node.Done();
        return options;
    }

    private static readonly string[] OnlyBesidePassword = ["viewerPasswordFile", "tokenFile"];

    private static void RequirePassword(ConfigNode node, WebOptions options)
    {
        if (node.Has("passwordFile"))
        {
            return;
        }

        foreach (var key in OnlyBesidePassword.Where(node.Has))
        {
            node.Faults.Add(node.PathOf(key), "given without \"passwordFile\"", "a password of the operators beside it, or everybody is one");
        }

        if (!options.IsLoopback)
        {
            node.Faults.Add(node.PathOf("passwordFile"), "missing",
                $"a file with a password hash (`vatwatch password` makes one), because {options.Listen} can be reached from other computers; or listen on 127.0.0.1");
        }
        else if (options.HostName is not null)
        {
            node.Faults.Add(node.PathOf("passwordFile"), "missing", "a file with a password hash, because \"hostName\" says others reach these pages");
        }
    }

    private static IPEndPoint? ParseListen(string text, out bool isHttps)
    {
        isHttps = text.StartsWith("https://", StringComparison.Ordinal);
        var rest = isHttps ? text[8..] : text.StartsWith("http://", StringComparison.Ordinal) ? text[7..] : null;
        var colon = rest?.LastIndexOf(':') ?? -1;
        if (colon <= 0 || !int.TryParse(rest![(colon + 1)..].TrimEnd('/'), NumberStyles.None, CultureInfo.InvariantCulture, out var port) || port is < 1 or > 65535)
        {
            return null;
        }

        return rest[..colon] switch
        {
            "localhost" => new(IPAddress.Loopback, port),
            "*" => new(IPAddress.IPv6Any, port),
            ['[', .. var inside, ']'] when IPAddress.TryParse(inside, out var v6) => new(v6, port),
            var host when host.Split('.').Length == 4 && IPAddress.TryParse(host, out var v4) => new(v4, port),
            _ => null,
        };
    }

    private static IPAddress? ReadProxy(ConfigNode node)
    {
        const string wanted = "the address of your reverse proxy, such as \"127.0.0.1\"";
        if (node.OptionalText("proxy", wanted) is not { Length: > 0 } text)
        {
            return null;
        }

        if (IPAddress.TryParse(text, out var address))
        {
            return KnownAddresses.PlaceOf(address);
        }

        node.Faults.Add(node.PathOf("proxy"), ConfigNode.Quote(text), wanted);
        return null;
    }

    private static string? ReadHostName(ConfigNode node)
    {
        const string wanted = "a host name such as \"vats.example\", without port";
        var name = node.OptionalText("hostName", wanted);
        if (name is { Length: > 0 } && Uri.CheckHostName(name) == UriHostNameType.Unknown)
        {
            node.Faults.Add(node.PathOf("hostName"), ConfigNode.Quote(name), wanted);
            return null;
        }

        return string.IsNullOrEmpty(name) ? null : name;
    }
}
