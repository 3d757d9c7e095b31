using System.Net;
using System.Net.Sockets;

namespace VatWatch.Testing;

/// <summary>
/// Stands between a client and a server on loopback as the network would: it can cut connections without a goodbye, and it can hold them
/// open while nothing passes any more.
/// </summary>
internal sealed class TcpRelay : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly List<Socket> _sockets = [];
    private readonly int _target;
    private volatile bool _silent;

    /// <summary>Relays to <paramref name="target"/> on loopback.</summary>
    public TcpRelay(int target)
    {
        _target = target;
        _listener.Start();
        _ = AcceptAsync();
    }

    /// <summary>Port to connect to.</summary>
    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>While true, bytes vanish in both directions.</summary>
    public bool Silent
    {
        get => _silent;
        set => _silent = value;
    }

    /// <summary>Resets every connection: both sides see it break.</summary>
    public void Cut()
    {
        lock (_sockets)
        {
            foreach (var socket in _sockets)
            {
                socket.LingerState = new LingerOption(true, 0);
                socket.Dispose();
            }

            _sockets.Clear();
        }
    }

    public void Dispose()
    {
        _listener.Dispose();
        Cut();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                var near = await _listener.AcceptSocketAsync();
                var far = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                try
                {
                    await far.ConnectAsync(IPAddress.Loopback, _target);
                }
                catch (SocketException)
                {
                    near.Dispose();
                    far.Dispose();
                    continue;
                }

                lock (_sockets)
                {
                    _sockets.AddRange([near, far]);
                }

                _ = PassAsync(near, far);
                _ = PassAsync(far, near);
            }
        }
        catch (Exception ended) when (ended is SocketException or ObjectDisposedException)
        {
            // The listener has been closed.
        }
    }

    private async Task PassAsync(Socket from, Socket to)
    {
        var buffer = new byte[4096];
        try
        {
            for (int count; (count = await from.ReceiveAsync(buffer)) > 0;)
            {
                if (!_silent)
                {
                    await to.SendAsync(buffer.AsMemory(0, count));
                }
            }

            to.Shutdown(SocketShutdown.Send);
        }
        catch (Exception ended) when (ended is SocketException or ObjectDisposedException)
        {
            // Cut.
        }
    }
}
