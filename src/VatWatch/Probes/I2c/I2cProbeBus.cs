using System.Device.I2c;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>An I2C bus that probes share, one at a time. Thread safe; opened and closed by one loop.</summary>
internal sealed class I2cProbeBus : IProbeBus
{
    private readonly DeviceOwner<I2cWire> _owner;
    private readonly ChipTally _tally = new();

    /// <param name="id">Name in the configuration.</param>
    /// <param name="number">Number of the adapter: /dev/i2c-NUMBER.</param>
    /// <param name="open">Opens the adapter of a number.</param>
    /// <param name="limits">How long calls may take.</param>
    /// <param name="wall">The clock of these limits.</param>
    public I2cProbeBus(BusId id, int number, Func<int, I2cBus> open, BlockingLimits limits, TimeProvider wall)
    {
        Id = id;
        Device = $"I2C bus {number}";
        _owner = new DeviceOwner<I2cWire>(Device, watch => new I2cWire(open(number), watch), limits, wall);
    }

    /// <summary>The plan of a probe behind a chip on a bus of this kind.</summary>
    /// <param name="unit">The unit it delivers in.</param>
    /// <param name="prepare">Sets it up; runs on the bus's thread.</param>
    public static ProbePlan Plan(string chip, int address, SampleUnit unit, Func<GuardedI2cDevice, IChip> prepare) =>
        new(unit, (bus, _, probe, _) => new ChipProbe<GuardedI2cDevice>(probe, chip, ((I2cProbeBus)bus).Seat(address), prepare));

    public BusId Id { get; }

    public string Device { get; }

    /// <summary>Threads alive, see <see cref="DeviceOwner{TDevice}.Threads"/>.</summary>
    public int Threads => _owner.Threads;

    public async ValueTask OpenAsync(CancellationToken cancel)
    {
        _tally.Clear();
        await _owner.OpenAsync(cancel);
    }

    public async ValueTask CloseAsync() => await _owner.CloseAsync();

    public ValueTask DisposeAsync() => _owner.DisposeAsync();

    /// <summary>The place of a chip; the bus counts as silent only when all chips that have one are.</summary>
    public IChipSeat<GuardedI2cDevice> Seat(int address)
    {
        _tally.Expect(address);
        return new SeatAt(this, address);
    }

    private sealed class SeatAt(I2cProbeBus bus, int address) : IChipSeat<GuardedI2cDevice>
    {
        public string Place => $"{I2cAddress.Text(address)} on {bus.Device}";

        public string Check => "its supply, its address pins, and the wires SDA and SCL with their pull-up resistors";

        public Task<T> UseAsync<T>(Func<GuardedI2cDevice, T> use, CancellationToken cancel) =>
            bus._owner.RunAsync(wire => use(wire.At(address)), cancel);

        public void Note(bool answered)
        {
            if (bus._tally.IsSilentAfter(address, answered))
            {
                throw new BusLostException($"no chip on {bus.Device} answers; check the supply and the wires SDA and SCL with their pull-up resistors");
            }
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
