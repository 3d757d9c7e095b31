using System.Net.Sockets;
using System.Text;

namespace VatWatch.Daemon.Tests.Service;

/// <summary>The service manager's end of the notification socket: a real datagram socket.</summary>
internal sealed class ListeningManager : IDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(20);
    private readonly string _folder = Directory.CreateTempSubdirectory("manager-").FullName;
    private readonly Socket _socket = new(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);

    public ListeningManager(bool isAbstract = false)
    {
        var name = Path.Combine(_folder, "notify");
        Address = isAbstract ? $"@{name}" : name;
        _socket.Bind(new UnixDomainSocketEndPoint(isAbstract ? $"\0{name}" : name));
    }

    /// <summary>As NOTIFY_SOCKET names it.</summary>
    public string Address { get; }

    /// <summary>The next datagram.</summary>
    public async Task<string> HearAsync()
    {
        var bytes = new byte[4096];
        using var limit = new CancellationTokenSource(Limit);
        return Encoding.UTF8.GetString(bytes, 0, await _socket.ReceiveAsync(bytes, limit.Token));
    }

    /// <summary>Whether a datagram waits.</summary>
    public bool Waits => _socket.Available > 0;

    public void Dispose()
    {
        _socket.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
