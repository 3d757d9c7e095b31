using System.Device.I2c;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>The place of a chip on an I2C bus that probes share. Thread safe.</summary>
internal sealed class I2cSeat : IChipSeat<GuardedI2cDevice>
{
    private readonly BlockingBus<I2cWire> _bus;
    private readonly int _address;

    public I2cSeat(IProbeBus bus, int address)
    {
        _bus = (BlockingBus<I2cWire>)bus;
        _address = address;
        _bus.Chips.Expect(address);
    }

    public string Place => $"{I2cAddress.Text(_address)} on {_bus.Device}";

    public string Check => "its supply, its address pins, and the wires SDA and SCL with their pull-up resistors";

    /// <summary>The plan of a probe behind a chip on a bus of this kind.</summary>
    /// <param name="unit">The unit it delivers in.</param>
    /// <param name="prepare">Sets it up; runs on the bus's thread.</param>
    public static ProbePlan Plan(string chip, int address, SampleUnit unit, Func<GuardedI2cDevice, IChip> prepare) =>
        new(unit, (bus, _, probe, _) => new ChipProbe<GuardedI2cDevice>(probe, chip, new I2cSeat(bus, address), prepare));

    public Task<T> UseAsync<T>(Func<GuardedI2cDevice, T> use, CancellationToken cancel) => _bus.RunAsync(wire => use(wire.At(_address)), cancel);

    public void Note(bool answered)
    {
        if (_bus.Chips.IsSilentAfter(_address, answered))
        {
            throw new BusLostException($"no chip on {_bus.Device} answers; check the supply and the wires SDA and SCL with their pull-up resistors");
        }
    }
}

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
