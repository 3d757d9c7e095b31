using VatWatch.Vats.Configuration;

namespace VatWatch.Influx;

/// <summary>
/// The configuration's optional <c>influx</c> section: a server that gets a copy of the store. The token is only named by file here. File
/// names are taken as written.
/// </summary>
public sealed record InfluxOptions
{
    /// <summary>Address of the server, <c>https://host:8086</c>. Plain http only to this machine, or where <c>plainHttp</c> says so.</summary>
    public required Uri Url { get; init; }

    /// <summary>Organisation on the server.</summary>
    public required string Org { get; init; }

    public required string Bucket { get; init; }

    /// <summary>File whose first line is a token that may write to the bucket.</summary>
    public required string TokenFile { get; init; }

    /// <summary>PEM file of the authority that signed the server's certificate; null for those the machine trusts.</summary>
    public string? CaFile { get; init; }

    /// <summary>Points in one request. Default 5000, the size that InfluxDB's own guide recommends; 10 to 20,000.</summary>
    public int Batch { get; init; } = 5000;

    /// <summary>How often it is looked for something new. Default 10 s, the store's usual commit interval; 1 s to 10 min.</summary>
    public TimeSpan Every { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>How long the server may take for one request. Default 30 s, 1 s to 5 min.</summary>
    public TimeSpan Timeout { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long the server may take nothing before there is an alarm. Default 15 min, 1 min to 7 days. A refusal alarms at once.</summary>
    public TimeSpan AlarmAfter { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>How much of the past a new server gets at first; null for all of it. 1 h to 10 years. Not longer than the bucket keeps points.</summary>
    public TimeSpan? History { get; init; }

    /// <summary>First wait after a failure, and the longest; each is a fifth longer or shorter by chance.</summary>
    internal (TimeSpan First, TimeSpan Longest) Waits { get; init; } = (TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(5));

    /// <summary>What the place on this server is kept under: another bucket begins anew.</summary>
    public string Server => $"{Url.AbsoluteUri} {Org} {Bucket}";

    private const string UrlWanted = "an address such as \"https://server:8086\"";

    /// <summary>Reads the section; faults are filed on the node, unknown keys included.</summary>
    public static InfluxOptions Read(ConfigNode node)
    {
        var usual = new InfluxOptions { Url = new("https://localhost"), Org = "", Bucket = "", TokenFile = "" };
        var plain = node.Flag("plainHttp", false);
        var options = usual with
        {
            Url = ReadUrl(node, plain) ?? usual.Url,
            Org = node.Text("org", "the organisation's name on the server"),
            Bucket = node.Text("bucket", "the bucket's name"),
            TokenFile = node.FilePath(node.Text("tokenFile", "the name of a file whose first line is a token that may write to the bucket")),
            CaFile = node.OptionalFile("caFile", "the name of a PEM file of certificates"),
            Batch = node.Whole("batch", 10, 20_000, usual.Batch),
            Every = node.Duration("every", TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(10), usual.Every),
            Timeout = node.Duration("timeout", TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(5), usual.Timeout),
            AlarmAfter = node.Duration("alarmAfter", TimeSpan.FromMinutes(1), TimeSpan.FromDays(7), usual.AlarmAfter),
            History = node.Has("history") ? node.Duration("history", TimeSpan.FromHours(1), TimeSpan.FromDays(3653)) : null,
        };
        if (options.CaFile is { Length: > 0 } file && options.Url.Scheme != Uri.UriSchemeHttps)
        {
            node.Faults.Add(node.PathOf("caFile"), ConfigNode.Quote(file), "no such key unless url begins with https://");
        }

        node.Done();
        return options;
    }

    /// <summary>
    /// What is wrong with the files that the section names, as clauses. For <c>check</c>: the watch itself starts without them, because alarms
    /// do not depend on a server, and says so by an alarm.
    /// </summary>
    public IEnumerable<string> Problems()
    {
        if (SecretFile.TryRead(TokenFile, out var fault, Secret) is null)
        {
            yield return $"influx.tokenFile: {fault}";
        }

        if (CaFile is { } file && AuthorityFile.TryRead(file, out var wrong) is null)
        {
            yield return $"influx.caFile: {wrong}";
        }
    }

    /// <summary>What the token is called in sentences.</summary>
    internal const string Secret = "token";

    private static Uri? ReadUrl(ConfigNode node, bool plain)
    {
        var text = node.Text("url", UrlWanted);
        if (text.Length == 0)
        {
            return null;
        }

        if (!Uri.TryCreate(text, UriKind.Absolute, out var url) || (url.Scheme != Uri.UriSchemeHttps && url.Scheme != Uri.UriSchemeHttp)
            || url.Query.Length > 0 || url.Fragment.Length > 0)
        {
            node.Faults.Add(node.PathOf("url"), text.Contains('@', StringComparison.Ordinal) ? WithSecret : ConfigNode.Quote(text), UrlWanted);
            return null;
        }

        if (url.UserInfo.Length > 0)
        {
            node.Faults.Add(node.PathOf("url"), WithSecret, $"{UrlWanted}, with the key tokenFile beside it");
        }
        else if (url.Scheme == Uri.UriSchemeHttp && !url.IsLoopback && !plain)
        {
            node.Faults.Add(node.PathOf("url"), ConfigNode.Quote(text), "https://, because the token would be seen on the network; or \"plainHttp\": true where nobody else is on it");
        }

        return url;
    }

    private const string WithSecret = "an address with a user or password in it";
}
