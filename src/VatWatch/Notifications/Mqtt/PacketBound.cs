namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// What a client of the built-in broker sends, broken off where it announces a packet larger than the bound. The library sets memory aside for the
/// length that a stranger announces, up to 256 MB (5.2.0), before it knows who it is. Reads only; not thread safe.
/// </summary>
/// <remarks>The fixed header is a byte of kind and a length of one to four bytes, the lowest seven bits first: MQTT 5, 2.1.4 and 1.5.5.</remarks>
internal sealed class PacketBound(Stream inner, int mostBytes) : Stream
{
    private const int More = 0x80;
    private const int BitsOfLength = 7;
    private const int LongestShift = 3 * BitsOfLength;
    private bool _inLength;
    private int _shift;
    private int _length;

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => true;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    /// <exception cref="IOException">The client announces a packet that is too large, or a length that is none.</exception>
    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        var count = await inner.ReadAsync(buffer, cancellationToken);
        Follow(buffer.Span[..count]);
        return count;
    }

    /// <inheritdoc/>
    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count)
    {
        var read = inner.Read(buffer, offset, count);
        Follow(buffer.AsSpan(offset, read));
        return read;
    }

    /// <inheritdoc/>
    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default) => inner.WriteAsync(buffer, cancellationToken);

    /// <inheritdoc/>
    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) => inner.WriteAsync(buffer, offset, count, cancellationToken);

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => inner.Write(buffer, offset, count);

    /// <inheritdoc/>
    public override void Flush() => inner.Flush();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }

    private void Follow(ReadOnlySpan<byte> bytes)
    {
        while (bytes.Length > 0)
        {
            if (_inLength)
            {
                TakeLength(bytes[0]);
                bytes = bytes[1..];
            }
            else if (_length > 0)
            {
                var body = Math.Min(_length, bytes.Length);
                _length -= body;
                bytes = bytes[body..];
            }
            else
            {
                (_inLength, _shift) = (true, 0);
                bytes = bytes[1..];
            }
        }
    }

    private void TakeLength(byte next)
    {
        _length |= (next & (More - 1)) << _shift;
        _inLength = (next & More) != 0;
        _shift += BitsOfLength;
        if (_length > mostBytes || (_inLength && _shift > LongestShift))
        {
            throw new IOException($"A client announces a packet of {_length} bytes or more; at most {mostBytes} are taken.");
        }
    }
}
