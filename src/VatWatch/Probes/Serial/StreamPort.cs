using System.IO.Ports;

namespace VatWatch.Probes.Serial;

/// <summary>A serial port read through <see cref="SerialPort.BaseStream"/>, for systems without poll(2) on a terminal.</summary>
internal sealed class StreamPort(SerialPort port) : IPort
{
    private static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(1);

    private readonly CancellationTokenSource _stop = new();
    private readonly Lock _reading = new();
    private readonly Lock _closing = new();
    private Task _pump = Task.CompletedTask;
    private bool _closed;
    private volatile bool _lost;

    public void Start(IPortSink sink) => _pump = PumpAsync(sink);

    public void Restart(Action whenEmpty)
    {
        lock (_reading)
        {
            try
            {
                port.DiscardInBuffer();
            }
            catch (Exception failure) when (IsLoss(failure))
            {
                _lost = true;
            }

            whenEmpty();
        }
    }

    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        if (_lost)
        {
            // Writing to a port that hung up would keep its Close from ever returning (dotnet/runtime 100690).
            throw new BusLostException("the device is gone");
        }

        try
        {
            await port.BaseStream.WriteAsync(bytes, cancel).AsTask().WaitAsync(WriteLimit, TimeProvider.System, cancel);
        }
        catch (Exception failure) when (IsLoss(failure) || failure is TimeoutException)
        {
            throw new BusLostException($"the device is gone while writing ({failure.Message})", failure);
        }
    }

    public void Dispose()
    {
        lock (_closing)
        {
            if (_closed)
            {
                return;
            }

            _closed = true;
        }

        _stop.Cancel();
        port.Dispose();
        _stop.Dispose();
    }

    private async Task PumpAsync(IPortSink sink)
    {
        var buffer = new byte[4096];
        try
        {
            while (true)
            {
                var count = await port.BaseStream.ReadAsync(buffer, _stop.Token);
                if (count == 0)
                {
                    throw new IOException("end of file");
                }

                lock (_reading)
                {
                    sink.Received(buffer.AsSpan(0, count));
                }
            }
        }
        catch (OperationCanceledException)
        {
        }
        catch (Exception failure) when (IsLoss(failure))
        {
            _lost = true;
            sink.Lost($"the device is gone ({failure.Message})");
        }
    }

    /// <summary>Every way in which a port that went away has been seen to fail.</summary>
    private static bool IsLoss(Exception failure) =>
        failure is ObjectDisposedException or IOException or UnauthorizedAccessException or InvalidOperationException;
}
