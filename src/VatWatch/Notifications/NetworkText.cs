using System.Net.Sockets;

namespace VatWatch.Notifications;

/// <summary>Turns what the network says into clauses for people.</summary>
internal static class NetworkText
{
    /// <summary>The clause for the socket's or the clock's fault behind an exception; null when there is none.</summary>
    public static string? Find(Exception exception)
    {
        for (var at = exception; at is not null; at = at.InnerException)
        {
            switch (at)
            {
                case SocketException socket:
                    return Of(socket);
                case OperationCanceledException or TimeoutException:
                    return "no answer in time";
            }
        }

        return null;
    }

    /// <summary>For example "nothing listens there".</summary>
    public static string Of(SocketException socket) => socket.SocketErrorCode switch
    {
        SocketError.ConnectionRefused => "nothing listens there",
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => "its name is not known",
        SocketError.HostUnreachable or SocketError.NetworkUnreachable => "there is no way to it",
        SocketError.TimedOut => "no answer from the machine",
        SocketError.ConnectionReset or SocketError.ConnectionAborted or SocketError.Shutdown => "it cut the connection",
        _ => FreeText.Quoted(socket.Message),
    };
}
