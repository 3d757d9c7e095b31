using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace VatWatch.Testing;

/// <summary>
/// A broker that lets clients in, answers subscriptions and pings, and acknowledges what is published only on topics that
/// the test names; where the test gives a reason code for a topic, that is the acknowledgement, with the test's words as its
/// reason string.
/// Packets as MQTT 5 §2 and §3 lay them out; packets are taken to be smaller than 2 MB and to come whole.
/// </summary>
internal sealed class UnacknowledgingBroker : IDisposable
{
    private readonly Func<string, bool> _acknowledges;
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentQueue<string> _published = new();
    private readonly Func<string, byte?> _refusal;
    private readonly byte[] _words;
    private int _connections;

    public UnacknowledgingBroker(Func<string, bool> acknowledges, Func<string, byte?>? refusal = null, string words = "")
    {
        (_acknowledges, _refusal, _words) = (acknowledges, refusal ?? (_ => null), Encoding.UTF8.GetBytes(words));
        _listener.Start();
        _ = AcceptAsync();
    }

    /// <summary>Port on loopback.</summary>
    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Topics of everything published, in order.</summary>
    public IReadOnlyList<string> Published => [.. _published];

    /// <summary>Clients let in so far.</summary>
    public int Connections => Volatile.Read(ref _connections);

    public void Dispose() => _listener.Dispose();

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                _ = ServeAsync(await _listener.AcceptTcpClientAsync());
            }
        }
        catch (Exception ended) when (ended is SocketException or ObjectDisposedException)
        {
            // Closed.
        }
    }

    private async Task ServeAsync(TcpClient client)
    {
        using (client)
        {
            try
            {
                var stream = client.GetStream();
                while (true)
                {
                    var kind = await ReadByteAsync(stream);
                    var body = new byte[await ReadLengthAsync(stream)];
                    await stream.ReadExactlyAsync(body);
                    if (Answer(kind, body) is { } answer)
                    {
                        await stream.WriteAsync(answer);
                    }
                }
            }
            catch (Exception ended) when (ended is IOException or ObjectDisposedException)
            {
                // The client has gone.
            }
        }
    }

    private byte[]? Answer(int kind, byte[] body)
    {
        switch (kind >> 4)
        {
            case 1: // CONNECT: success, no properties.
                Interlocked.Increment(ref _connections);
                return [0x20, 3, 0, 0, 0];
            case 8: // SUBSCRIBE: granted QoS 1.
                return [0x90, 4, body[0], body[1], 0, 1];
            case 12: // PINGREQ
                return [0xD0, 0];
            case 3:
                var length = body[0] << 8 | body[1];
                var topic = Encoding.UTF8.GetString(body, 2, length);
                _published.Enqueue(topic);
                var isOnce = (kind & 0x06) == 0x02;
                return !isOnce || !_acknowledges(topic) ? null
                    : _refusal(topic) is { } reason ? Refused(body[2 + length], body[3 + length], reason)
                    : [0x40, 2, body[2 + length], body[3 + length]];
            default:
                return null;
        }
    }

    /// <summary>PUBACK with a reason code and, when there are words, the property Reason String (MQTT 5 §3.4.2).</summary>
    private byte[] Refused(byte high, byte low, byte reason)
    {
        byte[] property = _words.Length == 0 ? [] : [0x1F, (byte)(_words.Length >> 8), (byte)_words.Length, .. _words];
        return [0x40, (byte)(4 + property.Length), high, low, reason, (byte)property.Length, .. property];
    }

    private static async Task<int> ReadByteAsync(NetworkStream stream)
    {
        var one = new byte[1];
        await stream.ReadExactlyAsync(one);
        return one[0];
    }

    private static async Task<int> ReadLengthAsync(NetworkStream stream)
    {
        for (int length = 0, shift = 0; ; shift += 7)
        {
            var part = await ReadByteAsync(stream);
            length |= (part & 0x7F) << shift;
            if (part < 0x80)
            {
                return length;
            }
        }
    }
}
