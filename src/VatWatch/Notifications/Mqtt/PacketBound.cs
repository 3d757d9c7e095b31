namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// What a client of the built-in broker sends, broken off where it announces a packet larger than the bound. The library sets memory aside for the
/// length that a stranger announces, up to 256 MB (5.2.0), before it knows who it is. Reads only; not thread safe.
/// </summary>
internal sealed class PacketBound(Stream inner, int mostBytes) : Stream
{
    private readonly PacketLength _length = new();

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <exception cref="IOException">The client announces a packet that is too large, or a length that is none.</exception>
    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        var count = await inner.ReadAsync(buffer, cancellationToken);
        Follow(buffer.Span[..count]);
        return count;
    }

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override int Read(byte[] buffer, int offset, int count)
    {
        var read = inner.Read(buffer, offset, count);
        Follow(buffer.AsSpan(offset, read));
        return read;
    }

    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default) => inner.WriteAsync(buffer, cancellationToken);

    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) => inner.WriteAsync(buffer, offset, count, cancellationToken);

    public override void Write(byte[] buffer, int offset, int count) => inner.Write(buffer, offset, count);

    public override void Flush() => inner.Flush();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

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
        if (_length.Pass(bytes) is var announced && announced > mostBytes)
        {
            throw new IOException($"A client announces a packet of {announced} bytes or more; at most {mostBytes} are taken.");
        }
    }
}
