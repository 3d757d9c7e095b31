using System.IO.Ports;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace VatWatch.Probes.Serial.Ports;

/// <summary>
/// A serial port on Linux: <see cref="SerialPort"/> opens and configures it, and reading and writing go through a second descriptor of the
/// same device that waits in poll(2).
/// </summary>
/// <remarks>
/// Reading through <see cref="SerialPort"/> keeps a loop of 1 ms turning while a read is pending and for a second after it, measured at
/// 2.6 % of a core for each port (dotnet/runtime 2379); poll(2) costs nothing between bytes. It also tells of a hang-up at once, where
/// <see cref="SerialPort"/> may stay silent for ever (dotnet/runtime 121627), and leaves SerialPort's own queue of writes empty, so that its
/// Close always returns (dotnet/runtime 100690).
/// </remarks>
internal sealed class PollPort : IPort
{
    private const int WriteLimitMilliseconds = 1000;
    private const int EmptyReadsOfALostPort = 100;

    private readonly SafeFileHandle _device;
    private readonly SerialPort _settings;
    private readonly SafeFileHandle _wake = Libc.EventHandle();
    private readonly Lock _reading = new();
    private readonly Lock _writing = new();
    private readonly byte[] _buffer = new byte[4096];
    private Thread? _thread;
    private IPortSink? _sink;
    private int _emptyReads;
    private bool _closed;

    /// <summary>Takes over both.</summary>
    public PollPort(SafeFileHandle device, SerialPort settings)
    {
        _device = device;
        _settings = settings;
    }

    public void Start(IPortSink sink)
    {
        _sink = sink;
        _thread = new Thread(() => Listen(sink)) { IsBackground = true, Name = "serial port" };
        _thread.Start();
    }

    public void Restart(Action whenEmpty)
    {
        lock (_reading)
        {
            // A port that will not stop talking must not hold the caller; what is left then counts as new.
            for (var chunk = 0; chunk < 64 && !_device.IsClosed && Libc.Read(_device, _buffer) is var count and > 0; chunk++)
            {
                _sink?.Received(_buffer.AsSpan(0, (int)count));
            }

            whenEmpty();
        }
    }

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        lock (_writing)
        {
            var rest = bytes.Span;
            while (rest.Length > 0)
            {
                cancel.ThrowIfCancellationRequested();
                if (_closed)
                {
                    throw new BusLostException("the port was closed");
                }

                var count = Libc.Write(_device, rest);
                if (count >= 0)
                {
                    rest = rest[count..];
                }
                else if (Marshal.GetLastPInvokeError() == Libc.ErrorAgain)
                {
                    WaitUntilWritable();
                }
                else if (Marshal.GetLastPInvokeError() != Libc.ErrorInterrupted)
                {
                    throw new BusLostException($"the device is gone while writing ({Libc.LastErrorText()})");
                }
            }
        }

        return ValueTask.CompletedTask;
    }

    public void Dispose()
    {
        lock (_writing)
        {
            if (_closed)
            {
                return;
            }

            _closed = true;
        }

        Libc.Write(_wake, BitConverter.GetBytes(1UL));
        _thread?.Join();
        _settings.Dispose();
        _device.Dispose();
        _wake.Dispose();
    }

    private void WaitUntilWritable()
    {
        var entries = new[] { Entry(_device, Libc.PollOut) };
        if (Libc.Wait(entries, WriteLimitMilliseconds) == 0)
        {
            throw new BusLostException($"the port took no bytes for {WriteLimitMilliseconds} ms");
        }
    }

    private void Listen(IPortSink sink)
    {
        var entries = new[] { Entry(_device, Libc.PollIn), Entry(_wake, Libc.PollIn) };
        while (true)
        {
            if (Libc.Wait(entries, -1) < 0)
            {
                if (Marshal.GetLastPInvokeError() == Libc.ErrorInterrupted)
                {
                    continue;
                }

                sink.Lost($"waiting for the device failed ({Libc.LastErrorText()})");
                return;
            }

            if (entries[1].Seen != 0)
            {
                return;
            }

            if (Deliver(entries[0].Seen, sink) is { } reason)
            {
                sink.Lost(reason);
                return;
            }
        }
    }

    /// <summary>Reads once and delivers; a reason when the device is gone.</summary>
    private string? Deliver(short seen, IPortSink sink)
    {
        const short gone = Libc.PollHangUp | Libc.PollError | Libc.PollInvalid;
        lock (_reading)
        {
            var count = Libc.Read(_device, _buffer);
            if (count > 0)
            {
                _emptyReads = 0;
                sink.Received(_buffer.AsSpan(0, count));
                return null;
            }

            if ((seen & gone) != 0)
            {
                return "the device hung up";
            }

            // Restart may have taken what poll(2) saw: nothing to read is then no end. Again and again, it is one.
            if (count == 0 || Marshal.GetLastPInvokeError() is Libc.ErrorAgain or Libc.ErrorInterrupted)
            {
                return ++_emptyReads < EmptyReadsOfALostPort ? null : "the device says that it has ended";
            }

            return $"the device is gone ({Libc.LastErrorText()})";
        }
    }

    private static Libc.PollEntry Entry(SafeFileHandle handle, short wanted) =>
        new() { Descriptor = (int)handle.DangerousGetHandle(), Wanted = wanted };
}
