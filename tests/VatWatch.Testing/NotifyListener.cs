using System.Net.Sockets;
using System.Text;

namespace VatWatch.Testing;

/// <summary>A service manager's end of the notification socket (NOTIFY_SOCKET): a real datagram socket.</summary>
internal sealed class NotifyListener : IDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);
    private readonly string _folder = Directory.CreateTempSubdirectory("notify-").FullName;
    private readonly Socket _socket = new(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
    private readonly List<string> _lines = [];

    /// <summary>Listens on a path, or in Linux's abstract name space.</summary>
    public NotifyListener(bool isAbstract = false)
    {
        var name = Path.Combine(_folder, "notify");
        Address = isAbstract ? $"@{name}" : name;
        _socket.Bind(new UnixDomainSocketEndPoint(isAbstract ? $"\0{name}" : name));
    }

    /// <summary>As NOTIFY_SOCKET names it.</summary>
    public string Address { get; }

    /// <summary>Whether a datagram waits.</summary>
    public bool Waits => _socket.Available > 0;

    /// <summary>The next datagram; <see cref="TimeoutException"/> when none comes within a minute.</summary>
    public async Task<string> HearAsync()
    {
        var bytes = new byte[4096];
        using var limit = new CancellationTokenSource(Limit);
        try
        {
            var told = Encoding.UTF8.GetString(bytes, 0, await _socket.ReceiveAsync(bytes, limit.Token));
            _lines.AddRange(told.Split('\n'));
            return told;
        }
        catch (OperationCanceledException)
        {
            throw new TimeoutException($"nothing was told within {Limit}; before: {string.Join(", ", _lines)}");
        }
    }

    /// <summary>Listens until it has been told a line so often, from the beginning.</summary>
    public async Task AwaitAsync(string line, int times = 1)
    {
        while (_lines.Count(told => told == line) < times)
        {
            await HearAsync();
        }
    }

    public void Dispose()
    {
        _socket.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
