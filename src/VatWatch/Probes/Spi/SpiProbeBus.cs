using System.Device.Spi;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Spi;

/// <summary>One chip select of an SPI bus. Thread safe; opened and closed by one loop.</summary>
internal sealed class SpiProbeBus : IProbeBus, IChipSeat<GuardedSpiDevice>
{
    private readonly DeviceOwner<GuardedSpiDevice> _owner;
    private readonly ChipTally _tally = new();
    private readonly int _chipSelect;

    /// <param name="id">Name in the configuration.</param>
    /// <param name="settings">Bus and chip select.</param>
    /// <param name="open">Opens the device of these settings.</param>
    /// <param name="limits">How long calls may take.</param>
    /// <param name="wall">The clock of these limits.</param>
    public SpiProbeBus(BusId id, SpiConnectionSettings settings, Func<SpiConnectionSettings, SpiDevice> open, BlockingLimits limits, TimeProvider wall)
    {
        Id = id;
        Device = $"SPI bus {settings.BusId}, chip select {settings.ChipSelectLine}";
        _chipSelect = settings.ChipSelectLine;
        _owner = new DeviceOwner<GuardedSpiDevice>(Device, watch => new GuardedSpiDevice(open(settings), watch), limits, wall);
        _tally.Expect(_chipSelect);
    }

    public BusId Id { get; }

    public string Device { get; }

    public string Place => Device;

    public string Check => "its supply and the wires SCLK, MOSI, MISO and chip select";

    /// <summary>Threads alive, see <see cref="DeviceOwner{TDevice}.Threads"/>.</summary>
    public int Threads => _owner.Threads;

    public async ValueTask OpenAsync(CancellationToken cancel)
    {
        _tally.Clear();
        await _owner.OpenAsync(cancel);
    }

    public async ValueTask CloseAsync() => await _owner.CloseAsync();

    public ValueTask DisposeAsync() => _owner.DisposeAsync();

    public Task<T> UseAsync<T>(Func<GuardedSpiDevice, T> use, CancellationToken cancel) => _owner.RunAsync(use, cancel);

    /// <remarks>SPI knows no acknowledge: a transfer fails only when the computer's own side does.</remarks>
    public void Note(bool answered)
    {
        if (_tally.IsSilentAfter(_chipSelect, answered))
        {
            throw new BusLostException($"transfers on {Device} fail; check {Check}");
        }
    }
}
