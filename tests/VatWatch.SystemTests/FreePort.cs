using System.Net;
using System.Net.Sockets;

namespace VatWatch.SystemTests;

internal static class FreePort
{
    /// <summary>A loopback port that nobody listens on at this moment.</summary>
    public static int Find()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
