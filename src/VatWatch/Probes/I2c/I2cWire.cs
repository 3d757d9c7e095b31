using System.Device.I2c;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c;

/// <summary>An open I2C bus with the devices on it, one per address however many probes share a chip. Used on one thread.</summary>
internal sealed class I2cWire(I2cBus bus, TransferWatch watch) : IDisposable
{
    private readonly Dictionary<int, GuardedI2cDevice> _devices = [];

    /// <summary>The device at <paramref name="address"/>.</summary>
    public GuardedI2cDevice At(int address)
    {
        if (!_devices.TryGetValue(address, out var device))
        {
            device = new GuardedI2cDevice(bus.CreateDevice(address), watch);
            _devices.Add(address, device);
        }

        return device;
    }

    /// <summary>Closes the bus. The libraries' chips are not disposed of: one of them would talk to its chip once more.</summary>
    public void Dispose() => bus.Dispose();
}
