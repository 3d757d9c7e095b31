using System.Net;
using System.Net.Sockets;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// Addresses from which somebody has signed in or come with a good session or key, so that strangers cannot keep them out. Kept in memory: the first request with
/// a good session after a start brings an address back. Thread safe.
/// </summary>
internal sealed class KnownAddresses(TimeProvider time)
{
    /// <summary>Addresses kept; the one not seen for longest makes room. A studio has a few.</summary>
    public const int Most = 64;

    /// <summary>How long an address stays known after it was seen: as long as a session.</summary>
    public static readonly TimeSpan Memory = TimeSpan.FromDays(30);

    private readonly Dictionary<IPAddress, long> _seen = [];
    private readonly Lock _lock = new();

    /// <summary>
    /// What counts as one place: an IPv4 address, or the /64 network of an IPv6 address, since one subscriber has that many of them.
    /// </summary>
    public static IPAddress PlaceOf(IPAddress? address)
    {
        if (address is null)
        {
            return IPAddress.None;
        }

        if (address.IsIPv4MappedToIPv6)
        {
            return address.MapToIPv4();
        }

        if (address.AddressFamily != AddressFamily.InterNetworkV6 || IPAddress.IsLoopback(address))
        {
            return address;
        }

        var bytes = address.GetAddressBytes();
        bytes.AsSpan(8).Clear();
        return new(bytes);
    }

    /// <summary>Keeps where a good session, key or password came from.</summary>
    public void Remember(IPAddress? address)
    {
        lock (_lock)
        {
            _seen[PlaceOf(address)] = time.GetTimestamp();
            if (_seen.Count > Most)
            {
                _seen.Remove(_seen.MinBy(pair => pair.Value).Key);
            }
        }
    }

    /// <summary>Whether a good session, key or password came from there lately.</summary>
    public bool Knows(IPAddress? address)
    {
        lock (_lock)
        {
            return _seen.TryGetValue(PlaceOf(address), out var seen) && time.GetElapsedTime(seen) < Memory;
        }
    }
}
