using System.Device.Spi;

namespace VatWatch.Testing.Registers;

/// <summary>A chip select of a fake SPI bus with an MAX31865 on it, opened as often as one likes. Log and faults as on <see cref="FakeI2cBench"/>; address 0.</summary>
public sealed class FakeSpiBench(Max31865Registers chip) : IDisposable
{
    private int _open;

    /// <summary>Every transfer; both directions are logged, as they run at once.</summary>
    public WireLog Log { get; } = new();

    /// <summary>What goes wrong.</summary>
    public WireFaults Faults { get; } = new() { Message = "Error 5 performing SPI data transfer." };

    /// <summary>The chip.</summary>
    public Max31865Registers Chip => chip;

    /// <summary>What the device was last opened with.</summary>
    public SpiConnectionSettings? Settings { get; private set; }

    /// <summary>Devices open at this moment.</summary>
    public int OpenHandles => Volatile.Read(ref _open);

    /// <summary>Opens the device; the seam of the bus kind.</summary>
    public SpiDevice Open(SpiConnectionSettings settings)
    {
        Settings = settings;
        Interlocked.Increment(ref _open);
        return new Device(this, settings);
    }

    public void Dispose() => Faults.Dispose();

    private sealed class Device(FakeSpiBench bench, SpiConnectionSettings settings) : SpiDevice
    {
        private bool _closed;

        public override SpiConnectionSettings ConnectionSettings => settings;

        public override void Read(Span<byte> buffer) => TransferFullDuplex(new byte[buffer.Length], buffer);

        public override void Write(ReadOnlySpan<byte> buffer) => Transfer(buffer, []);

        public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer) => Transfer(writeBuffer, readBuffer);

        protected override void Dispose(bool disposing)
        {
            if (!_closed)
            {
                _closed = true;
                Interlocked.Decrement(ref bench._open);
            }

            base.Dispose(disposing);
        }

        private void Transfer(ReadOnlySpan<byte> written, Span<byte> read)
        {
            ObjectDisposedException.ThrowIf(_closed, this);
            try
            {
                bench.Faults.Strike();
                bench.Chip.Transfer(written, read);
                bench.Log.Add(0, written, read);
            }
            catch (IOException)
            {
                bench.Log.AddFailure(0);
                throw;
            }
        }
    }
}
