using System.Net;
using Microsoft.AspNetCore.Connections;

namespace VatWatch.Daemon.Web.Security;

/// <summary>The place of one connection. It can be taken away while none of its requests is being answered.</summary>
/// <param name="places">Whose place it is.</param>
/// <param name="connection">The connection.</param>
/// <param name="address">From where.</param>
/// <param name="isStranger">Whether nobody has signed in from there.</param>
internal sealed class ConnectionPlace(ConnectionPlaces places, ConnectionContext connection, IPAddress address, bool isStranger)
{
    public ConnectionContext Connection => connection;

    public IPAddress Address => address;

    public bool IsStranger => isStranger;

    /// <summary>Requests being answered; guarded by <see cref="ConnectionPlaces"/>.</summary>
    public int Answered { get; set; }

    /// <summary>
    /// Keeps the place of a request until it is answered. Called once all of it is here and it is known to be somebody's who is let in: a head or body that
    /// comes drop by drop keeps none.
    /// </summary>
    public static void Keep(HttpContext context)
    {
        if (context.Features.Get<ConnectionPlace>() is { } place)
        {
            place.Count(1);
            context.Response.OnCompleted(() =>
            {
                place.Count(-1);
                return Task.CompletedTask;
            });
        }
    }

    private void Count(int answered) => places.Count(this, answered);
}
