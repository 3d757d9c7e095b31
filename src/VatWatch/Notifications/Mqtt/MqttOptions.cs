using System.Net;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// The configuration's <c>mqtt</c> section: which broker, and with what credentials. Secrets are only named by file here and are read at
/// every connection, so that a corrected file needs no restart. File names are taken as written.
/// </summary>
public sealed record MqttOptions
{
    /// <summary>What the section says when it says nothing: our own broker on loopback, port 1883, without credentials.</summary>
    public static MqttOptions Default { get; } = new() { IsBuiltin = true };

    /// <summary>True when the daemon runs its own broker.</summary>
    public required bool IsBuiltin { get; init; }

    /// <summary>Where the daemon's own broker listens; a loopback address. Default 127.0.0.1:1883.</summary>
    public IPEndPoint Listen { get; init; } = new(IPAddress.Loopback, PlainPort);

    /// <summary>Name or address of a broker elsewhere; empty for our own.</summary>
    public string Host { get; init; } = "";

    /// <summary>Port of a broker elsewhere, 1 to 65535. Default 1883, with TLS 8883 (the registered ports of MQTT).</summary>
    public int Port { get; init; } = PlainPort;

    /// <summary>Whether the connection is encrypted (<c>mqtts://</c>).</summary>
    public bool Tls { get; init; }

    /// <summary>User name; null for none.</summary>
    public string? User { get; init; }

    /// <summary>File whose first line is the password; null for none.</summary>
    public string? PasswordFile { get; init; }

    /// <summary>PEM file of the authority that signed the broker's certificate; null for those the machine trusts.</summary>
    public string? CaFile { get; init; }

    /// <summary>Where the client connects to.</summary>
    internal DnsEndPoint Target => IsBuiltin ? new(Listen.Address.ToString(), Listen.Port) : new(Host, Port);

    /// <summary>The broker as people know it, without credentials.</summary>
    public string Address => IsBuiltin ? $"built-in broker on {Listen}" : $"{(Tls ? "mqtts" : "mqtt")}://{(Host.Contains(':') ? $"[{Host}]" : Host)}:{Port}";

    private const int PlainPort = 1883;
    private const int TlsPort = 8883;
    private const string WantedBroker = "\"builtin\", \"mqtt://host:port\" or \"mqtts://host:port\"";
    private const string WantedListen = "a loopback address and port such as \"127.0.0.1:1883\"";

    /// <summary>What to use for what the daemon's own broker does not do.</summary>
    private const string BrokerOfOnesOwn = "phones and other machines need a broker of your own, such as mosquitto by config/mosquitto/set-up, named by \"broker\"";

    /// <summary>Reads the section; faults are filed on the node, unknown keys included.</summary>
    public static MqttOptions Read(ConfigNode node)
    {
        var options = ReadBroker(node) with
        {
            User = node.OptionalText("user", "a user name"),
            PasswordFile = SecretFile.Read(node, "passwordFile", "the name of a file whose first line is the password"),
        };
        options = ReadCaFile(node, ReadListen(node, options));
        if (options.IsBuiltin && options.User is not null)
        {
            node.Faults.Add(node.PathOf("user"), ConfigNode.Quote(options.User), $"no such key for the built-in broker, which is for this computer alone; {BrokerOfOnesOwn}");
        }
        else if (options.User is null != options.PasswordFile is null)
        {
            var (missing, given) = options.User is null ? ("user", "passwordFile") : ("passwordFile", "user");
            node.Faults.Add(node.PathOf(missing), "missing", $"both user and passwordFile, or neither ({given} is given)");
        }

        node.Done();
        return options;
    }

    private static MqttOptions ReadBroker(ConfigNode node)
    {
        var text = node.OptionalText("broker", WantedBroker, "builtin")!;
        if (text is "builtin" or "")
        {
            return Default;
        }

        if (!Uri.TryCreate(text, UriKind.Absolute, out var uri) || uri.Scheme is not ("mqtt" or "mqtts") || uri.DnsSafeHost.Length == 0)
        {
            node.Faults.Add(node.PathOf("broker"), text.Contains('@', StringComparison.Ordinal) ? WithSecret : ConfigNode.Quote(text), WantedBroker);
            return Default with { IsBuiltin = false };
        }

        if (uri.UserInfo.Length > 0)
        {
            node.Faults.Add(node.PathOf("broker"), WithSecret, $"{WantedBroker}, with the keys user and passwordFile beside it");
        }
        else if (uri.Port == 0 || uri.AbsolutePath is not ("" or "/") || uri.Query.Length > 0 || uri.Fragment.Length > 0)
        {
            node.Faults.Add(node.PathOf("broker"), ConfigNode.Quote(text), WantedBroker);
        }

        var tls = uri.Scheme == "mqtts";
        return new() { IsBuiltin = false, Host = uri.DnsSafeHost, Tls = tls, Port = uri.Port > 0 ? uri.Port : tls ? TlsPort : PlainPort };
    }

    private const string WithSecret = "an address with a user or password in it";

    private static MqttOptions ReadListen(ConfigNode node, MqttOptions options)
    {
        if (!node.Has("listen"))
        {
            return options;
        }

        var text = node.Text("listen", WantedListen);
        if (!options.IsBuiltin)
        {
            node.Faults.Add(node.PathOf("listen"), ConfigNode.Quote(text), "no such key unless broker is \"builtin\"");
            return options;
        }

        if (text.Length == 0)
        {
            return options;
        }

        if (!IPEndPoint.TryParse(text, out var listen) || listen.Port == 0)
        {
            node.Faults.Add(node.PathOf("listen"), ConfigNode.Quote(text), WantedListen);
            return options;
        }

        if (!IPAddress.IsLoopback(listen.Address))
        {
            node.Faults.Add(node.PathOf("listen"), ConfigNode.Quote(text), $"{WantedListen}; {BrokerOfOnesOwn}");
            return options;
        }

        return options with { Listen = listen };
    }

    private static MqttOptions ReadCaFile(ConfigNode node, MqttOptions options)
    {
        if (node.Has("caFile") && !options.Tls)
        {
            node.Faults.Add(node.PathOf("caFile"), node.Shown("caFile"), "no such key unless broker is \"mqtts://host:port\"");
            return options;
        }

        return options with { CaFile = AuthorityFile.Read(node) };
    }
}
