using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Modbus;

/// <summary>
/// The bus kind <c>modbus-tcp</c>: a device or a gateway on a network. Settings: <c>host</c>, a name or an address; <c>port</c> (default 502);
/// <c>replyTimeout</c>, how long an answer may take, 20 ms to 4 s (default 1 s).
/// </summary>
public sealed class ModbusTcpBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "modbus-tcp";

    private const int UsualPort = 502;

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var host = node.Text("host", "the name or address of a device on the network, such as \"192.168.1.40\"");
        if (host.Length > 0 && Uri.CheckHostName(host) == UriHostNameType.Unknown)
        {
            node.Faults.Add(node.PathOf("host"), ConfigNode.Quote(host), "a name or address alone, such as \"192.168.1.40\"");
        }

        var port = node.Whole("port", 1, ushort.MaxValue, UsualPort);
        var timeout = node.Duration("replyTimeout", TimeSpan.FromMilliseconds(20), TimeSpan.FromSeconds(4), TimeSpan.FromSeconds(1));
        return new(id, Word, _ => new ModbusTcpBus(id, host, port, timeout, TimeProvider.System));
    }
}
