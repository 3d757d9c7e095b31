using System.Device.I2c;

namespace VatWatch.Testing.Registers;

/// <summary>One opening of a <see cref="FakeI2cBench"/>. Like the real one it refuses a second device at one address, and everything once closed.</summary>
internal sealed class FakeI2cBus(FakeI2cBench bench, int number) : I2cBus
{
    private readonly HashSet<int> _used = [];
    private bool _closed;

    public override I2cDevice CreateDevice(int deviceAddress)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        return _used.Add(deviceAddress)
            ? new Device(this, deviceAddress)
            : throw new ArgumentException($"Device with address 0x{deviceAddress:X2} is already open.", nameof(deviceAddress));
    }

    public override void RemoveDevice(int deviceAddress) => _used.Remove(deviceAddress);

    public override System.Device.ComponentInformation QueryComponentInformation() => new(this, "fake I2C bus");

    protected override void Dispose(bool disposing)
    {
        if (!_closed)
        {
            _closed = true;
            bench.Closed();
        }

        base.Dispose(disposing);
    }

    private void Transfer(int address, ReadOnlySpan<byte> written, Span<byte> read)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        bench.Transfer(address, written, read);
    }

    private sealed class Device(FakeI2cBus bus, int address) : I2cDevice
    {
        public override I2cConnectionSettings ConnectionSettings { get; } = new(bus.Number, address);

        public override void Read(Span<byte> buffer) => bus.Transfer(address, [], buffer);

        public override void Write(ReadOnlySpan<byte> buffer) => bus.Transfer(address, buffer, []);

        public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer) => bus.Transfer(address, writeBuffer, readBuffer);
    }

    private int Number => number;
}
