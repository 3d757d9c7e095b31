using System.Net;
using Microsoft.AspNetCore.Connections;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// Bounds the connections to the pages' address: in all, from one address, and from addresses nobody has signed in from, so that places are left for those of
/// operators. The local socket is not counted here. Thread safe.
/// </summary>
internal sealed class ConnectionPlaces(KnownAddresses known, WebOptions options)
{
    /// <summary>Connections at one time.</summary>
    public const int Most = 200;

    /// <summary>Of these from addresses that are not known, so that 80 are kept.</summary>
    public const int MostOfStrangers = 120;

    /// <summary>From one address that is not known. A browser opens six, and one for the event stream.</summary>
    public const int MostOfStranger = 24;

    /// <summary>From one known address, from this computer, or from the named proxy, behind which everybody is.</summary>
    public const int MostOfKnown = 120;

    private readonly Lock _lock = new();
    private readonly Dictionary<IPAddress, int> _of = [];
    private int _strangers;
    private int _all;
    private long _refused;

    /// <summary>Connections refused since the start.</summary>
    public long Refused => Interlocked.Read(ref _refused);

    /// <summary>Connection middleware: comes before anything is read, TLS included.</summary>
    public ConnectionDelegate Guard(ConnectionDelegate next) => async connection =>
    {
        var place = KnownAddresses.PlaceOf((connection.RemoteEndPoint as IPEndPoint)?.Address);
        var isKnown = IPAddress.IsLoopback(place) || place.Equals(options.Proxy) || known.Knows(place);
        if (!TryTake(place, isKnown))
        {
            Interlocked.Increment(ref _refused);
            connection.Abort(new ConnectionAbortedException("every place for this address is taken"));
            return;
        }

        try
        {
            await next(connection);
        }
        finally
        {
            GiveBack(place, isKnown);
        }
    };

    private bool TryTake(IPAddress place, bool isKnown)
    {
        lock (_lock)
        {
            var mine = _of.GetValueOrDefault(place);
            if (_all >= Most || mine >= (isKnown ? MostOfKnown : MostOfStranger) || (!isKnown && _strangers >= MostOfStrangers))
            {
                return false;
            }

            _of[place] = mine + 1;
            _all++;
            _strangers += isKnown ? 0 : 1;
            return true;
        }
    }

    private void GiveBack(IPAddress place, bool isKnown)
    {
        lock (_lock)
        {
            _all--;
            _strangers -= isKnown ? 0 : 1;
            if (--_of[place] == 0)
            {
                _of.Remove(place);
            }
        }
    }
}
