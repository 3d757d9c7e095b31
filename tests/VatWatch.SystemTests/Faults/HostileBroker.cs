using System.Net;
using System.Net.Sockets;
using System.Text;

namespace VatWatch.SystemTests.Faults;

/// <summary>How a <see cref="HostileBroker"/> behaves to those who connect.</summary>
internal enum Hostility
{
    /// <summary>Passes everything on to the real broker.</summary>
    None,

    /// <summary>Accepts and never says a word.</summary>
    Silent,

    /// <summary>Random bytes without end.</summary>
    Garbage,

    /// <summary>Lets clients in, then announces a packet of 256 MB and sends it.</summary>
    HugePacket,

    /// <summary>Lets clients in and acknowledges what was never sent.</summary>
    WrongAnswers,

    /// <summary>Lets clients in and hangs up at the first message that wants an acknowledgement.</summary>
    HangsUp,

    /// <summary>Lets clients in, acknowledges no message, and floods them with commands, some of 1 MB.</summary>
    Flood,
}

/// <summary>A port that is a real broker at times and something else at others (packets of MQTT 5 §2 and §3).</summary>
internal sealed class HostileBroker : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly List<Socket> _sockets = [];
    private readonly int _target;
    private volatile int _mode;
    private int _connections;

    /// <summary>Stands before the broker at <paramref name="target"/>.</summary>
    public HostileBroker(int target)
    {
        _target = target;
        _listener.Start();
        _ = AcceptAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Connections so far.</summary>
    public int Connections => Volatile.Read(ref _connections);

    /// <summary>Breaks every connection and treats new ones so.</summary>
    public void Become(Hostility mode)
    {
        _mode = (int)mode;
        lock (_sockets)
        {
            _sockets.ForEach(socket => socket.Dispose());
            _sockets.Clear();
        }
    }

    public void Dispose()
    {
        _listener.Dispose();
        Become(Hostility.Silent);
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                var socket = Keep(await _listener.AcceptSocketAsync());
                Interlocked.Increment(ref _connections);
                _ = ServeAsync(socket, (Hostility)_mode);
            }
        }
        catch (Exception ended) when (ended is SocketException or ObjectDisposedException)
        {
            // Closed.
        }
    }

    private Socket Keep(Socket socket)
    {
        lock (_sockets)
        {
            _sockets.Add(socket);
        }

        return socket;
    }

    private async Task ServeAsync(Socket socket, Hostility mode)
    {
        try
        {
            await (mode switch
            {
                Hostility.None => PassAsync(socket),
                Hostility.Silent => SwallowAsync(socket),
                Hostility.Garbage => Task.WhenAny(SwallowAsync(socket), GarbageAsync(socket)),
                Hostility.HugePacket => Task.WhenAny(AnswerAsync(socket, mode), HugeAsync(socket)),
                Hostility.Flood => Task.WhenAny(AnswerAsync(socket, mode), FloodAsync(socket)),
                _ => AnswerAsync(socket, mode),
            });
        }
        catch (Exception ended) when (ended is SocketException or ObjectDisposedException or IOException)
        {
            // The client has gone, or the mode has changed.
        }
        finally
        {
            socket.Dispose();
        }
    }

    private async Task PassAsync(Socket near)
    {
        var far = Keep(new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true });
        using (far)
        {
            await far.ConnectAsync(IPAddress.Loopback, _target);
            await Task.WhenAny(CopyAsync(near, far), CopyAsync(far, near));
        }
    }

    private static async Task CopyAsync(Socket from, Socket to)
    {
        var buffer = new byte[8192];
        for (int count; (count = await from.ReceiveAsync(buffer)) > 0;)
        {
            await to.SendAsync(buffer.AsMemory(0, count));
        }
    }

    private static async Task SwallowAsync(Socket socket)
    {
        var buffer = new byte[8192];
        while (await socket.ReceiveAsync(buffer) > 0)
        {
        }
    }

    private static async Task GarbageAsync(Socket socket)
    {
        var random = new Random(7);
        for (var block = new byte[65536]; ;)
        {
            random.NextBytes(block);
            await socket.SendAsync(block);
        }
    }

    private static async Task HugeAsync(Socket socket)
    {
        await Task.Delay(500);
        await socket.SendAsync(new byte[] { 0x30, 0xFF, 0xFF, 0xFF, 0x7F });
        for (var (block, sent) = (new byte[65536], 0L); sent < 268_435_455; sent += block.Length)
        {
            await socket.SendAsync(block);
        }
    }

    private static async Task FloodAsync(Socket socket)
    {
        await Task.Delay(500);
        string[] topics = ["vatwatch/test-studio/weld-yard/command/acknowledge", "vatwatch/test-studio/weld-yard/command/note", "vatwatch/test-studio/nobody/command/acknowledge"];
        for (var number = 0; ; number++)
        {
            var payload = number % 20 == 0 ? new string('x', 1_000_000) : """{"alarm":"overheat","by":7,""";
            await socket.SendAsync(Message(topics[number % topics.Length], payload));
        }
    }

    private static byte[] Message(string topic, string payload)
    {
        var body = new List<byte> { (byte)(topic.Length >> 8), (byte)topic.Length };
        body.AddRange(Encoding.UTF8.GetBytes(topic));
        body.Add(0);
        body.AddRange(Encoding.UTF8.GetBytes(payload));
        List<byte> packet = [0x30];
        for (var rest = body.Count; ; rest >>= 7)
        {
            packet.Add((byte)((rest & 0x7F) | (rest > 0x7F ? 0x80 : 0)));
            if (rest <= 0x7F)
            {
                return [.. packet, .. body];
            }
        }
    }

    private static async Task AnswerAsync(Socket socket, Hostility mode)
    {
        await using var stream = new NetworkStream(socket);
        var head = new byte[1];
        while (true)
        {
            await stream.ReadExactlyAsync(head);
            var kind = head[0];
            var length = 0;
            for (var shift = 0; ; shift += 7)
            {
                await stream.ReadExactlyAsync(head);
                length |= (head[0] & 0x7F) << shift;
                if (head[0] < 0x80)
                {
                    break;
                }
            }

            var body = new byte[length];
            await stream.ReadExactlyAsync(body);
            var wantsAnswer = kind >> 4 == 3 && (kind & 0x06) != 0;
            if (wantsAnswer && mode == Hostility.HangsUp)
            {
                return;
            }

            var wrong = (byte)(mode == Hostility.WrongAnswers ? 0x55 : 0);
            var place = wantsAnswer ? 2 + (body[0] << 8 | body[1]) : 0;
            byte[] answer = (kind >> 4) switch
            {
                1 => [0x20, 3, 0, 0, 0],
                8 => [0x90, 4, (byte)(body[0] ^ wrong), (byte)(body[1] ^ wrong), 0, 1],
                12 => [0xD0, 0],
                3 when wantsAnswer && mode == Hostility.WrongAnswers => [0x40, 2, (byte)(body[place] ^ wrong), (byte)(body[place + 1] ^ wrong)],
                _ => [],
            };
            await stream.WriteAsync(answer);
        }
    }
}
