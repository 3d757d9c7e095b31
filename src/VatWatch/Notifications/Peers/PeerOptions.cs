using VatWatch.Notifications.Mqtt;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Peers;

/// <summary>Another VatWatch that this one listens for, and the broker on which it beats.</summary>
/// <param name="SilentAfter">How long without a beat is silence; 45 s to 1 h, default 2 min. It beats every 30 s.</param>
public sealed record PeerOptions(string Site, MqttOptions Broker, TimeSpan SilentAfter)
{
    /// <summary>Reads the list <c>watches</c> from the root of the file; faults are filed.</summary>
    public static IReadOnlyList<PeerOptions> Read(ConfigNode root)
    {
        var nodes = root.Sections("watches", "a list of other watches");
        var sites = new HashSet<string>(StringComparer.Ordinal);
        return [.. nodes.Select(node => ReadOne(node, sites))];
    }

    private static PeerOptions ReadOne(ConfigNode node, HashSet<string> sites)
    {
        var site = node.Name("site");
        if (site.Length > 0 && !sites.Add(site))
        {
            node.Faults.Add(node.PathOf("site"), $"\"{site}\" for a second time", "each site once");
        }

        var silentAfter = node.Duration("silentAfter", TimeSpan.FromSeconds(45), TimeSpan.FromHours(1), TimeSpan.FromMinutes(2));
        if (!node.Has("broker") && !node.IsBroken)
        {
            node.Faults.Add(node.PathOf("broker"), "missing", "the broker of that watch, \"mqtt://host:port\" or \"mqtts://host:port\"");
        }

        var broker = MqttOptions.Read(node);
        if (node.Has("broker") && broker.IsBuiltin && node.Shown("broker") == "\"builtin\"")
        {
            node.Faults.Add(node.PathOf("broker"), "\"builtin\"", "the broker of that watch, on a machine that does not lose its power with it");
        }

        return new(site, broker, silentAfter);
    }
}
