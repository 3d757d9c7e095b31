using System.Net;
using System.Net.Sockets;

namespace VatWatch.Testing;

/// <summary>A TCP port of loopback that nobody uses at the moment of asking.</summary>
internal static class FreePort
{
    /// <summary>Asks the system for one.</summary>
    public static int Next()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
