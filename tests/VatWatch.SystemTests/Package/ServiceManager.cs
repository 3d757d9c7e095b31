using System.Collections.Concurrent;
using System.Net.Sockets;
using System.Text;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Package;

/// <summary>The service manager's end of the notification socket: keeps what it is told.</summary>
internal sealed class ServiceManager : IAsyncDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("manager-").FullName;
    private readonly Socket _socket = new(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
    private readonly CancellationTokenSource _stop = new();
    private readonly ConcurrentQueue<string> _told = new();
    private readonly Task _listening;

    public ServiceManager()
    {
        Address = Path.Combine(_folder, "notify");
        _socket.Bind(new UnixDomainSocketEndPoint(Address));
        _listening = ListenAsync();
    }

    /// <summary>For NOTIFY_SOCKET.</summary>
    public string Address { get; }

    /// <summary>How often it was told a line.</summary>
    public int Told(string line) => _told.Count(told => told.Split('\n').Contains(line));

    /// <summary>Waits until it was told a line so often.</summary>
    public Task AwaitAsync(string line, int times = 1) => Eventually.TrueAsync(() => Told(line) >= times, $"{line} is told {times} times");

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _listening.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _socket.Dispose();
        _stop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private async Task ListenAsync()
    {
        var bytes = new byte[4096];
        while (true)
        {
            _told.Enqueue(Encoding.UTF8.GetString(bytes, 0, await _socket.ReceiveAsync(bytes, _stop.Token)));
        }
    }
}
