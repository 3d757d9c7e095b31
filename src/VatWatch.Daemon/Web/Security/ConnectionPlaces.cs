using System.Net;
using Microsoft.AspNetCore.Connections;

namespace VatWatch.Daemon.Web.Security;

/// <summary>
/// Bounds the connections to the pages' address: in all, from one address, and from addresses nobody has signed in from, so that places are left for those of
/// operators. Where all are taken, the connection that has been quiet for longest makes room for the next, so that whoever only holds connections keeps nobody
/// out. The local socket is not counted here. Thread safe.
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
    private readonly List<ConnectionPlace> _quietFirst = [];
    private long _refused;

    /// <summary>Connections refused since the start, or ended to make room.</summary>
    public long Refused => Interlocked.Read(ref _refused);

    /// <summary>Connection middleware: comes before anything is read, TLS included.</summary>
    public ConnectionDelegate Guard(ConnectionDelegate next) => async connection =>
    {
        var address = KnownAddresses.PlaceOf((connection.RemoteEndPoint as IPEndPoint)?.Address);
        var isKnown = IPAddress.IsLoopback(address) || address.Equals(options.Proxy) || known.Knows(address);
        var place = new ConnectionPlace(this, connection, address, !isKnown);
        var isTaken = TryTake(place, out var ended);
        if (ended is not null)
        {
            Interlocked.Increment(ref _refused);
            ended.Connection.Abort(new ConnectionAbortedException("every place for this address is taken"));
        }

        if (isTaken)
        {
            connection.Features.Set(place);
            try
            {
                await next(connection);
            }
            finally
            {
                Leave(place);
            }
        }
    };

    /// <summary>A request of this connection is being answered, or no longer is.</summary>
    public void Count(ConnectionPlace place, int answered)
    {
        lock (_lock)
        {
            place.Answered += answered;
            if (place.Answered == 0 && _quietFirst.Remove(place))
            {
                _quietFirst.Add(place);
            }
        }
    }

    /// <param name="ended">Who must go: another, this one where all are being answered, or nobody.</param>
    private bool TryTake(ConnectionPlace place, out ConnectionPlace? ended)
    {
        lock (_lock)
        {
            ended = null;
            if (Crowd(place) is { } crowd)
            {
                var ofAddress = _quietFirst.CountBy(one => one.Address).ToDictionary();
                ended = crowd.Where(one => one.Answered == 0).MaxBy(one => ofAddress[one.Address]) ?? place;
                if (ended == place)
                {
                    return false;
                }

                _quietFirst.Remove(ended);
            }

            _quietFirst.Add(place);
            return true;
        }
    }

    /// <summary>Those of whom one must go before there is room for another; null where there is room.</summary>
    private IEnumerable<ConnectionPlace>? Crowd(ConnectionPlace place)
    {
        var same = _quietFirst.Where(one => one.Address.Equals(place.Address));
        var strangers = _quietFirst.Where(one => one.IsStranger);
        return same.Count() >= (place.IsStranger ? MostOfStranger : MostOfKnown) ? same
            : place.IsStranger && strangers.Count() >= MostOfStrangers ? strangers
            : _quietFirst.Count < Most ? null
            : place.IsStranger ? strangers
            : _quietFirst;
    }

    private void Leave(ConnectionPlace place)
    {
        lock (_lock)
        {
            _quietFirst.Remove(place);
        }
    }
}
