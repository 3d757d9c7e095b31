using System.Buffers.Binary;
using System.Net.Sockets;

namespace VatWatch.Probes.Modbus;

/// <summary>
/// Modbus on a network. Each request carries a number that its answer repeats, so a late answer is known and dropped. One request at a time:
/// a gateway has one serial line behind it. Thread safe; opened and closed by one loop.
/// </summary>
/// <remarks>Frames: Modbus messaging on TCP/IP implementation guide V1.0b, 3.1.3: transaction, protocol 0, length, unit, then function and data; words high byte first.</remarks>
internal sealed class ModbusTcpBus(BusId id, string host, int port, TimeSpan replyTimeout, TimeProvider wall) : IOverheardBus, IModbusWire
{
    private const int HeaderBytes = 7;
    private const int LongestBody = 254;
    private const byte ErrorBit = 0x80;

    /// <summary>Longest that connecting may take: below the limit of the loop that opens.</summary>
    private static readonly TimeSpan ConnectLimit = TimeSpan.FromSeconds(4);

    /// <summary>Without one answer for this long, and for three requests, the connection is made afresh.</summary>
    private static readonly TimeSpan ReopenAfterSilence = TimeSpan.FromSeconds(60);

    private const int FewUnanswered = 3;

    private readonly SemaphoreSlim _turn = new(1, 1);
    private SilentDevices _silent = new(wall);
    private volatile TcpClient? _client;
    private ushort _transaction;
    private int _unanswered;
    private long _lastHeard;

    public BusId Id => id;

    public string Device => $"{host}, port {port}";

    public Action<OverheardBytes>? Overhear { get; set; }

    public async ValueTask OpenAsync(CancellationToken cancel)
    {
        if (_client is not null)
        {
            throw new InvalidOperationException($"Bus '{id}' is open already.");
        }

        var client = new TcpClient { NoDelay = true };
        using var limit = new CancellationTokenSource(ConnectLimit, wall);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, limit.Token);
        try
        {
            await client.ConnectAsync(host, port, either.Token);
        }
        catch (Exception e) when (e is SocketException or OperationCanceledException)
        {
            client.Dispose();
            cancel.ThrowIfCancellationRequested();
            throw new BusLostException($"cannot connect to {Device}: {(e is SocketException seen ? Words(seen) : $"no answer within {ConnectLimit.TotalSeconds:0} s")}", e);
        }

        (_unanswered, _lastHeard) = (0, wall.GetTimestamp());
        _silent = new(wall);
        _client = client;
    }

    public ValueTask CloseAsync()
    {
        Interlocked.Exchange(ref _client, null)?.Dispose();
        return ValueTask.CompletedTask;
    }

    public ValueTask DisposeAsync() => CloseAsync();

    public async ValueTask<ModbusAnswer> AskAsync(ModbusSettings settings, TimeSpan every, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            if (_client is not null && _silent.Rest(settings.Address) > TimeSpan.Zero)
            {
                return ModbusAnswer.Rested(settings);
            }

            var stream = (_client ?? throw new BusLostException("the connection is not open")).GetStream();
            return await ExchangeAsync(stream, settings, every, cancel);
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException or InvalidOperationException)
        {
            throw new BusLostException($"the connection to {Device} was lost", e);
        }
        finally
        {
            _turn.Release();
        }
    }

    private async ValueTask<ModbusAnswer> ExchangeAsync(NetworkStream stream, ModbusSettings settings, TimeSpan every, CancellationToken cancel)
    {
        using var limit = new CancellationTokenSource(replyTimeout, wall);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, limit.Token);
        var frame = new FrameReader(stream, Overhear);
        try
        {
            var transaction = unchecked(++_transaction);
            await stream.WriteAsync(Request(transaction, settings), either.Token);
            while (true)
            {
                var (number, unit, body) = await frame.NextAsync(Device, either.Token);
                (_unanswered, _lastHeard) = (0, wall.GetTimestamp());
                if (number == transaction)
                {
                    _silent.NoteAnswered(settings.Address);
                    return Judge(settings, unit, body);
                }
            }
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            if (frame.IsBroken || (++_unanswered >= FewUnanswered && wall.GetElapsedTime(_lastHeard) >= TimeMath.Max(ReopenAfterSilence, 3 * every)))
            {
                throw new BusLostException($"{Device} sends nothing, or a part of an answer, so the connection is made afresh");
            }

            _silent.NoteUnanswered(settings.Address, replyTimeout);
            return ModbusAnswer.None(Sample.Missing($"no answer from address {settings.Address} within {replyTimeout.TotalMilliseconds:0} ms"));
        }
    }

    private byte[] Request(ushort transaction, ModbusSettings settings)
    {
        var frame = new byte[HeaderBytes + ModbusSettings.RequestBytes];
        BinaryPrimitives.WriteUInt16BigEndian(frame, transaction);
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(4), ModbusSettings.RequestBytes + 1);
        frame[6] = settings.Address;
        settings.WriteRequest(frame.AsSpan(HeaderBytes));
        Overhear?.Invoke(new(true, frame));
        return frame;
    }

    private static ModbusAnswer Judge(ModbusSettings settings, byte unit, byte[] body)
    {
        if (unit == settings.Address && body is [var refused, var code] && refused == (settings.Function | ErrorBit))
        {
            return new(default, code, null);
        }

        var wanted = settings.Format.Bytes();
        return unit == settings.Address && body.Length == wanted + 2 && body[0] == settings.Function && body[1] == wanted
            ? new(body.AsMemory(2), null, null)
            : ModbusAnswer.None(Sample.Fault($"address {settings.Address} answered with bytes that are no answer to the request ({Convert.ToHexString(body)})"));
    }

    private static string Words(SocketException seen) => seen.SocketErrorCode switch
    {
        SocketError.ConnectionRefused => "it refuses the port",
        SocketError.HostNotFound or SocketError.TryAgain or SocketError.NoData => "no such name on the network",
        SocketError.HostUnreachable or SocketError.NetworkUnreachable => "no way to it",
        var other => $"error {(int)other}",
    };

    /// <summary>Reads frames one after the other.</summary>
    private sealed class FrameReader(NetworkStream stream, Action<OverheardBytes>? overhear)
    {
        /// <summary>Whether a frame was begun and not ended: what follows on the connection cannot be told apart any more.</summary>
        public bool IsBroken { get; private set; }

        public async ValueTask<(ushort Transaction, byte Unit, byte[] Body)> NextAsync(string device, CancellationToken cancel)
        {
            var header = new byte[HeaderBytes];
            await ReadAsync(header, cancel);
            var length = BinaryPrimitives.ReadUInt16BigEndian(header.AsSpan(4)) - 1;
            if (header[2] != 0 || header[3] != 0 || length is < 1 or > LongestBody)
            {
                throw new BusLostException($"{device} does not speak Modbus: it sent {Convert.ToHexString(header)}");
            }

            var body = new byte[length];
            await ReadAsync(body, cancel);
            IsBroken = false;
            return (BinaryPrimitives.ReadUInt16BigEndian(header), header[6], body);
        }

        private async ValueTask ReadAsync(byte[] bytes, CancellationToken cancel)
        {
            for (var length = 0; length < bytes.Length;)
            {
                var read = await stream.ReadAsync(bytes.AsMemory(length), cancel);
                if (read == 0)
                {
                    throw new IOException("The other side has closed the connection.");
                }

                overhear?.Invoke(new(false, bytes.AsMemory(length, read).ToArray()));
                length += read;
                IsBroken = true;
            }
        }
    }
}
